# Completion of rigproof for bash. Made from the commands declared in cli/; do not edit.
# Again: build/.../bin/help_files docs

# What the options of a command are, what an option ($1) asks for, what stands at each place.
_rigproof_command() {
  case $command in
    check)
      options='-h --help --brief --top --skip-bad --json'
      case $1 in
        --brief) kind=toml ;;
        --top) kind=value ;;
      esac
      places=(folder)
      ;;
    import)
      options='-h --help --mapping --catalog --write --store --skip-bad --json'
      case $1 in
        --mapping) kind=value ;;
        --catalog) kind=folder ;;
        --store) kind=value ;;
      esac
      places=(value)
      ;;
    plan)
      options='-h --help --catalog --best --time-limit --sheet --save --export-mps --short --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
        --best) kind=value ;;
        --time-limit) kind=value ;;
        --sheet) kind=folder ;;
        --save) kind=file ;;
        --export-mps) kind=file ;;
      esac
      places=(toml)
      ;;
    outlook)
      options='-h --help --catalog --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
      esac
      places=(toml)
      ;;
    insist)
      options='-h --help --catalog --without --time-limit --save --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
        --without) kind=value ;;
        --time-limit) kind=value ;;
        --save) kind=file ;;
      esac
      places=(toml value)
      ;;
    frontier)
      options='-h --help --catalog --from --to --time-limit --short --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
        --from) kind=value ;;
        --to) kind=value ;;
        --time-limit) kind=value ;;
      esac
      places=(toml)
      ;;
    repair)
      options='-h --help --catalog --most-swaps --time-limit --save --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
        --most-swaps) kind=value ;;
        --time-limit) kind=value ;;
        --save) kind=file ;;
      esac
      places=(toml toml)
      ;;
    claims)
      options='-h --help --catalog --brief --measured --measure --short --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
        --brief) kind=toml ;;
        --measured) kind=file ;;
        --measure) kind=value ;;
      esac
      places=(toml)
      ;;
    fit)
      options='-h --help --catalog --brief --measured --measure -o --output --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
        --brief) kind=toml ;;
        --measured) kind=file ;;
        --measure) kind=value ;;
        -o|--output) kind=folder ;;
      esac
      places=(toml)
      ;;
    power)
      options='-h --help --catalog --brief --beside --show-work --measured --measure --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
        --brief) kind=toml ;;
        --beside) kind=toml ;;
        --measured) kind=file ;;
        --measure) kind=value ;;
      esac
      places=(toml)
      ;;
    air)
      options='-h --help --catalog --brief --speed --cooler-speed --distance --show-work --measured --measure --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
        --brief) kind=toml ;;
        --speed) kind=value ;;
        --cooler-speed) kind=value ;;
        --distance) kind=value ;;
        --measured) kind=file ;;
        --measure) kind=value ;;
      esac
      places=(toml)
      ;;
    sheet)
      options='-h --help --catalog --brief -o --output --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
        --brief) kind=toml ;;
        -o|--output) kind=folder ;;
      esac
      places=(toml)
      ;;
    rules)
      options='-h --help --json'
      case $1 in
      esac
      places=(rule)
      ;;
    export)
      options='-h --help --store -o --output --catalog --backup --skip-bad --json'
      case $1 in
        --store) kind=value ;;
        -o|--output) kind=folder ;;
        --catalog) kind=folder ;;
        --backup) kind=file ;;
      esac
      places=()
      ;;
    serve)
      options='-h --help --catalog --store --add --port --listen --token --name --jobs --open --skip-bad --json'
      case $1 in
        --catalog) kind=folder ;;
        --store) kind=value ;;
        --add) kind=file ;;
        --port) kind=value ;;
        --listen) kind=value ;;
        --token) kind=value ;;
        --name) kind=value ;;
        --jobs) kind=value ;;
      esac
      places=()
      ;;
  esac
}

_rigproof() {
  local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}
  local command= kind= options= word place=0 i
  local -a places=()
  COMPREPLY=()
  # bash makes words of --option, = and the value.
  if [[ $current == = ]]; then current=
  elif [[ $before == = ]]; then before=${COMP_WORDS[COMP_CWORD - 2]}; fi
  # The command, and how many words stand at a place of their own before this one.
  for ((i = 1; i < COMP_CWORD; ++i)); do
    word=${COMP_WORDS[i]}
    if [[ $word == = ]]; then
      ((++i))
    elif [[ -z $command ]]; then
      [[ $word == -* ]] || command=$word
    elif [[ $word == -* ]]; then
      kind=
      _rigproof_command "$word"
      [[ -n $kind && ${COMP_WORDS[i + 1]} != = ]] && ((++i))
    else
      ((++place))
    fi
  done
  if [[ -z $command ]]; then
    mapfile -t COMPREPLY < <(compgen -W 'check import plan outlook insist frontier repair claims fit power air sheet rules export serve -h --help --version' -- "$current")
    return
  fi
  kind=
  _rigproof_command "$before"
  if [[ -z $kind && $current == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$current")
    return
  fi
  [[ -n $kind ]] || kind=${places[place]}
  case $kind in
    folder)
      compopt -o filenames 2>/dev/null
      mapfile -t COMPREPLY < <(compgen -d -- "$current") ;;
    file)
      compopt -o filenames 2>/dev/null
      mapfile -t COMPREPLY < <(compgen -f -- "$current") ;;
    toml)
      compopt -o filenames 2>/dev/null
      mapfile -t COMPREPLY < <(compgen -d -- "$current"; compgen -f -X '!*.toml' -- "$current") ;;
    rule)
      mapfile -t COMPREPLY < <(compgen -W 'match.complete match.socket match.firmware match.memory-type match.memory-type-cpu match.memory-slots match.memory-capacity match.memory-capacity-cpu match.module-capacity match.memory-speed match.memory-width match.memory-fill match.memory-latency match.power-stage match.power-stage-peak match.cooler-socket match.cooler-heat match.m2-places match.drive-link match.shared-lanes match.sata-ports match.card-slot match.card-link match.covered-slots match.hidden-sockets match.picture match.display-link match.board-form match.bay-places match.psu-form match.board-connectors match.card-connectors match.drive-connectors match.adapters match.cable-family match.fan-headers match.pump-header match.front-headers match.usb2-headers match.light-headers match.must-memory match.must-storage match.must-wifi match.must-front-usb-c fit.card-length fit.card-height fit.card-thickness fit.cooler-height fit.supply-length fit.supply-cables fit.case-volume fit.plug-room fit.card-slots fit.card-mass fit.memory-height fit.over-board fit.over-cooler fit.tube-reach fit.pump-height fit.radiator-mount fit.fan-places fit.moving-air fit.board-cables fit.card-cables fit.drive-cables power.sustained power.slot power.card-inputs power.cpu-inputs power.supply-advice power.fan-header power.cpu-fan-header power.light-header power.usb-header power.excursions power.card-contacts power.wall power.circuit power.running-cost forecast.frame-floor forecast.slow-frames forecast.frame-target forecast.video-memory air.cpu-temperature air.gpu-temperature air.coolant-temperature air.stage-temperature air.drive-temperature air.exhaust-temperature air.noise air.full-power air.pressure air.steady-time market.offer market.budget market.age market.lone-offer market.stock market.condition market.tax market.warranty match.named-parts' -- "$current") ;;
    '')
      mapfile -t COMPREPLY < <(compgen -W "$options" -- "$current") ;;
  esac
}
complete -F _rigproof rigproof
