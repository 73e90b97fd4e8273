// The JSON of catalog. Made by tools/make_types.mjs: not to be edited.

/** processors */
export interface Cpu {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** socket it sits in */
  socket?: string
  /** memory its controller takes, such as DDR5 */
  memory_types?: string[]
  /** rated memory speed */
  memory_max_mt_s?: number
  /** largest memory in all */
  memory_max_gib?: number
  /** memory channels of its controller; each module of a set fills one */
  memory_channels?: number
  /** generation of the lanes it gives to the card's slot */
  pcie_generation?: number
  /** physical cores */
  cores?: number
  /** package power with nothing to do */
  idle_power_w?: number
  /** package power it keeps up under all-core load */
  sustained_power_w?: number
  /** package power for seconds */
  peak_power_w?: number
  /** package power while a title runs */
  title_power_w?: number
  /** temperature at which it slows itself down */
  limit_c?: number
  /** has a graphics unit of its own */
  picture?: boolean
  /** speed of the processor's share of a frame; the reference part is 1 */
  frame_speed?: number
}

/** mainboards */
export interface Board {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** processor socket */
  socket?: string
  /** outline and hole pattern */
  form_factor?: "ATX" | "microATX" | "Mini-ITX"
  /** memory its slots take */
  memory_type?: string
  /** memory slots */
  memory_slots?: number
  /** slots in the order in which they are filled, numbered from the processor outwards, such as 2|4|1|3 */
  memory_fill_order?: Array<"1" | "2" | "3" | "4" | "5" | "6" | "7" | "8">
  /** largest memory in all */
  memory_max_gib?: number
  /** largest module a slot takes */
  module_max_gib?: number
  /** fastest memory it lists */
  memory_max_mt_s?: number
  /** fastest memory it lists with every slot filled */
  memory_full_mt_s?: number
  /** package power its stage feeds for long */
  cpu_sustained_w?: number
  /** package power its stage feeds for seconds */
  cpu_peak_w?: number
  /** how much hotter than the air around it its stage is while it feeds cpu_sustained_w */
  stage_rise_k?: number
  /** oldest firmware boards in the shops still have, by its place in board_firmware */
  firmware_shipped_first?: number
  /** newest firmware they have, by its place in board_firmware */
  firmware_shipped_last?: number
  /** firmware can be written without a processor in the socket */
  flash_without_cpu?: boolean
  /** 24-pin main inputs */
  atx24_inputs?: number
  /** 8-pin processor inputs that must be fed */
  eps8_inputs?: number
  /** 4-pin processor inputs that must be fed beside them */
  eps4_inputs?: number
  /** display outputs for a processor's own graphics */
  picture_outputs?: number
  /** SATA ports */
  sata_ports?: number
  /** radio on board */
  wifi?: boolean
  /** tallest heat sink or plug with its cable along the upper edge */
  upper_edge_mm?: number
  /** from its upper edge to the middle of the processor socket */
  socket_from_edge_mm?: number
  /** own power under load, radio and chipset */
  power_w?: number
}

/** memory kits as sold */
export interface Memory {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** such as DDR5 */
  memory_type?: string
  /** modules in the kit as sold */
  modules?: number
  /** size of one module */
  module_gib?: number
  /** rated speed with its profile */
  speed_mt_s?: number
  /** first-word latency (CL) in clocks at that speed */
  latency_clocks?: number
  /** height above the slot's foot */
  height_mm?: number
  /** power of the whole kit under load */
  power_w?: number
}

/** graphics cards */
export interface Gpu {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** the chip on it; several cards share one */
  chip?: string
  /** bracket to end */
  length_mm?: number
  /** slot edge to top, without the plug */
  height_mm?: number
  /** cooler included */
  thickness_mm?: number
  /** mass with its cooler and bracket */
  mass_kg?: number
  /** rear slots its bracket and cooler fill */
  slots?: number
  /** where its power plugs go in: the top faces the side panel */
  plug_side?: "top" | "end" | "none"
  /** what plug and bent cable need above the edge they leave from */
  plug_bend_mm?: number
  /** generation of its link */
  pcie_generation?: number
  /** lanes of its link */
  pcie_lanes?: number
  /** board power with a still picture */
  idle_power_w?: number
  /** board power it keeps up */
  sustained_power_w?: number
  /** share of it drawn through the slot */
  slot_power_w?: number
  /** temperature at which it slows itself down */
  limit_c?: number
  /** how much hotter than the air it draws in its chip is at its sustained power, by its own cooler */
  rise_k?: number
  /** heat that its chip and cooler take in for each kelvin */
  heat_capacity_j_k?: number
  /** level at 1 m at its sustained power */
  noise_dba?: number
  /** memory on the card */
  video_memory_gib?: number
  /** shading speed; the reference card is 1 */
  raster_speed?: number
  /** ray speed; the reference card is 1 */
  ray_speed?: number
  /** effective memory bandwidth, caches counted in */
  bandwidth_gb_s?: number
  /** supply rating its maker advises */
  supply_advice_w?: number
}

/** drives */
export interface Storage {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** what it sits in: a socket of that size code, or a bay */
  mounting?: "M.2-2230" | "M.2-2242" | "M.2-2260" | "M.2-2280" | "M.2-22110" | "bay-2.5" | "bay-3.5"
  /** how it talks */
  link?: "NVMe" | "SATA"
  /** NVMe: generation of its link */
  pcie_generation?: number
  /** NVMe: lanes of its link */
  pcie_lanes?: number
  /** decimal gigabytes */
  capacity_gb?: number
  /** under load */
  power_w?: number
  /** how much hotter than the air around it is under load */
  rise_k?: number
}

/** processor coolers */
export interface Cooler {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** tower or flat air cooler, or closed liquid loop */
  type?: "air" | "liquid"
  /** above the board's processor, fan included; a loop's pump block */
  height_mm?: number
  /** memory slots it reaches over, counted from the processor; 0: none */
  covers_memory_slots?: number
  /** height it leaves for memory in the slots it reaches over */
  memory_clearance_mm?: number
  /** from the middle of the processor to its edge on the side of the board's upper edge */
  above_socket_mm?: number
  /** heat its maker says it carries */
  rated_heat_w?: number
  /** how much hotter than the air the processor is at that heat, fans at full speed */
  rise_at_rating_k?: number
  /** how much hotter than the loop's liquid, or than the fins' foot of an air cooler, the processor is at that heat */
  plate_rise_k?: number
  /** heat that its metal and liquid take in for each kelvin */
  heat_capacity_j_k?: number
  /** loop: nominal radiator size (fans x fan size) */
  radiator_mm?: number
  /** loop: radiator without fans */
  radiator_thickness_mm?: number
  /** loop: its tubes from the pump block to the radiator */
  tube_mm?: number
  /** size of its own fans */
  fan_mm?: number
  /** thickness of its own fans */
  fan_thickness_mm?: number
  /** fans it comes with */
  fans?: number
  /** free flow of each of its fans at full speed */
  flow_m3_h?: number
  /** shut-off pressure of each of its fans at full speed */
  pressure_pa?: number
  /** level at 1 m, all its fans at full speed */
  noise_dba?: number
  /** fans and pump */
  power_w?: number
}

/** cases */
export interface Case {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** board outlines it has standoffs for */
  form_factors?: Array<"ATX" | "microATX" | "Mini-ITX">
  /** supply forms it takes */
  psu_forms?: Array<"ATX" | "SFX" | "SFX-L" | "TFX">
  /** outside */
  width_mm?: number
  /** outside, feet included */
  height_mm?: number
  /** outside */
  depth_mm?: number
  /** outside volume the maker states */
  volume_l?: number
  /** rear slots a card may fill */
  card_slots?: number
  /** 2.5 inch drive places */
  bays_2_5?: number
  /** 3.5 inch drive places */
  bays_3_5?: number
  /** all gaps and openings that are no mount, together */
  leak_cm2?: number
  /** the supply draws and blows its own air, apart from the rest */
  supply_chamber?: boolean
}

/** supplies */
export interface Psu {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** body form */
  form?: "ATX" | "SFX" | "SFX-L" | "TFX"
  /** body, along the chamber */
  length_mm?: number
  /** what its plugs and bent cables need behind the body */
  cable_bend_mm?: number
  /** continuous, all rails */
  rated_power_w?: number
  /** temperature of the air it draws in up to which it gives its rating */
  full_power_c?: number
  /** what it gives less for each kelvin above that */
  derating_w_k?: number
  /** design guide edition it states, such as ATX-3.1 */
  edition?: string
  /** certified level */
  efficiency?: "standard" | "bronze" | "silver" | "gold" | "platinum" | "titanium"
  /** pinout family of its loose cables; another family's can destroy hardware */
  cable_family?: string
  /** level at 1 m at half its rating */
  noise_dba?: number
}

/** case fans */
export interface Fan {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** frame */
  size_mm?: number
  /** frame */
  thickness_mm?: number
  /** steady, at 12 V */
  current_a?: number
  /** several hang on one another and share one plug */
  chains?: boolean
  /** fastest */
  speed_rpm?: number
  /** free flow at full speed */
  flow_m3_h?: number
  /** shut-off pressure at full speed */
  pressure_pa?: number
  /** level at 1 m at full speed */
  noise_dba?: number
}

/** displays */
export interface Display {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** pixels across */
  width_px?: number
  /** pixels down */
  height_px?: number
  /** fastest refresh */
  refresh_hz?: number
  /** bits of one color it is fed with; empty: 8 */
  bits_per_channel?: number
}

/** brackets, hubs, adapters, paste, licences */
export interface Other {
  /** slug, unique over all part tables */
  id: string
  /** what the box says */
  name: string
  /** who makes it */
  maker?: string
  /** the maker's own order code */
  maker_code?: string
  /** what it does in a build */
  what?: "wifi-card" | "socket-mount" | "bracket" | "hub" | "adapter" | "cable-set" | "paste" | "licence"
  /** a card: the slot it needs; none: it needs none */
  slot?: "none" | "x1" | "x4" | "x8" | "x16"
  /** a cable set: pinout family of its supply side */
  cable_family?: string
  /** under load */
  power_w?: number
}

/** drive sockets of a board, one by one */
export interface BoardM2 {
  /** which board */
  board: string
  /** number the board prints beside it */
  socket: number
  /** module lengths it can hold down, such as 60|80 */
  lengths_mm: Array<"30" | "42" | "60" | "80" | "110">
  /** rear slot of the case that it lies in line with, 1 nearest to the processor; 0: before them all */
  position?: number
  /** what it speaks */
  links?: Array<"NVMe" | "SATA">
  /** NVMe generation */
  pcie_generation?: number
  /** NVMe lanes */
  pcie_lanes?: number
  /** number of the card slot (board_slots) that loses lanes while a drive is in it; 0: none does */
  shares_slot?: number
  /** lanes that slot keeps then */
  slot_lanes_left?: number
  /** SATA ports that are dead while a drive is in it; 0: none */
  sata_ports_off?: number
}

/** card slots of a board, one by one */
export interface BoardSlots {
  /** which board */
  board: string
  /** number of the slot, from the processor outwards */
  slot: number
  /** rear slot of the case it lines up with, 1 nearest to the processor */
  position?: number
  /** connector length */
  length: "x1" | "x4" | "x8" | "x16"
  /** generation of its link */
  pcie_generation?: number
  /** lanes wired to it */
  pcie_lanes?: number
}

/** fan, light and USB headers of a board */
export interface BoardHeaders {
  /** which board */
  board: string
  /** kind of header */
  header: "fan" | "cpu-fan" | "pump" | "usb2" | "usb3" | "usb-c" | "light-5v" | "light-12v"
  /** how many; 0 states that there is none */
  count: number
  /** fans and lights: current each of them gives */
  current_a?: number
}

/** firmware of a board, in the order it came out */
export interface BoardFirmware {
  /** which board */
  board: string
  /** place in the order of releases, 1 the oldest */
  place: number
  /** what its maker calls it; never compared */
  version: string
  /** when it came out */
  released?: string
}

/** processors on a board's list and the firmware each needs */
export interface CpuSupport {
  /** which board */
  board: string
  /** a processor on its maker's list */
  cpu: string
  /** first firmware that starts it, by its place in board_firmware */
  firmware?: number
}

/** processor sockets a cooler fits with what is in its box */
export interface CoolerSockets {
  /** which cooler */
  cooler: string
  /** a socket its mounting set fits */
  socket: string
}

/** auxiliary power inputs of a card */
export interface GpuInputs {
  /** which card */
  gpu: string
  /** auxiliary power input */
  connector: "pcie6" | "pcie8" | "12v-2x6"
  /** how many; 0 states that there is none */
  count: number
}

/** how high a card's power goes for how short a time */
export interface GpuPeaks {
  /** which card */
  gpu: string
  /** mean over so many microseconds */
  window_us: "100" | "1000" | "10000" | "100000"
  /** highest such mean of its board power that was measured */
  power_w: number
}

/** flow and pressure of a fan as measured, from one point to the next */
export interface FanPoints {
  /** which fan */
  fan: string
  /** a flow at full speed at which its pressure was measured */
  flow_m3_h: number
  /** the pressure it gives there */
  pressure_pa: number
}

/** level of a part as measured, with its distance and its load */
export interface NoisePoints {
  /** which card, cooler, supply or fan */
  part: string
  /** under which load it was measured; any: whatever the load */
  load: "any" | "idle" | "title" | "all-core" | "everything"
  /** level of one piece there; takes the place of its noise_dba under that load */
  level_dba: number
  /** from where it was measured */
  distance_m: number
  /** fans and coolers: how fast it turned, of full speed; full speed where this is empty */
  speed_percent?: number
}

/** display outputs of a card */
export interface GpuOutputs {
  /** which card */
  gpu: string
  /** display link and version */
  link: string
  /** how many */
  count: number
  /** declares stream compression (DSC) */
  compression?: boolean
}

/** display links a display takes */
export interface DisplayInputs {
  /** which display */
  display: string
  /** display link and version */
  link: string
  /** how many */
  count: number
  /** declares stream compression (DSC) */
  compression?: boolean
}

/** plugs a supply offers */
export interface PsuCables {
  /** which supply */
  psu: string
  /** plug at the far end */
  connector: "atx24" | "eps8" | "eps4" | "pcie6" | "pcie8" | "12v-2x6" | "sata" | "peripheral4"
  /** plugs that can be used at the same time */
  count: number
  /** from the supply along the cable to this plug, the nearest where one cable has several */
  length_mm?: number
  /** its wires, American wire gauge */
  gauge_awg?: number
}

/** places for fans and radiators in a case */
export interface CaseMounts {
  /** which case */
  case: string
  /** name of the place, such as front or top */
  mount: string
  /** side of the case it is on */
  face: "front" | "top" | "rear" | "bottom" | "side"
  /** fan sizes its holes take */
  fan_sizes_mm?: Array<"40" | "60" | "80" | "92" | "120" | "140" | "180" | "200">
  /** fans of its smallest listed size it holds */
  fan_places?: number
  /** nominal radiator sizes it takes */
  radiators_mm?: Array<"none" | "120" | "140" | "240" | "280" | "360" | "420">
  /** free depth for radiator and fans together */
  depth_mm?: number
  /** share of its opening that is open, grille and filter frame counted */
  open_frac?: number
  /** what its filter costs at 1 m/s; 0: it has none */
  filter_pa?: number
  /** top faces: how far something may hang down from it before it reaches the board's upper edge */
  beyond_board_mm?: number
  /** top faces: from the board's face to the middle of the row of holes */
  middle_from_board_mm?: number
  /** from the middle of the processor along gently bent tubes to the near end of a radiator there */
  tube_way_mm?: number
  /** front, rear and side faces: how far the upper end of a radiator there stands above the middle of the processor; negative: below it */
  end_above_socket_mm?: number
}

/** room in a case, and what takes from it */
export interface CaseClearances {
  /** which case */
  case: string
  /** what is limited; supply-length: what a body may have; supply-and-cables: the whole depth of its chamber */
  limits: "card-length" | "card-height" | "card-thickness" | "cooler-height" | "supply-length" | "supply-and-cables"
  /** always; or the mount whose use takes room; or bay-2.5, bay-3.5: drives in such bays take it */
  when: string
  /** always: the clearance; a mount: room taken from it beside the thickness of what sits there; a bay: room taken by its cage */
  by_mm: number
}

/** fans a case comes with */
export interface CaseFans {
  /** which case */
  case: string
  /** where it is mounted when sold */
  mount: string
  /** frame */
  size_mm: number
  /** how many; 0 states that the mount is empty when sold */
  count: number
  /** each of them, steady, at 12 V */
  current_a?: number
  /** free flow of each at full speed */
  flow_m3_h?: number
  /** shut-off pressure of each at full speed */
  pressure_pa?: number
  /** level at 1 m of each at full speed */
  noise_dba?: number
}

/** how far the cables of a supply have to go in a case */
export interface CaseWays {
  /** which case */
  case: string
  /** plug that goes there */
  connector: "atx24" | "eps8" | "eps4" | "pcie6" | "pcie8" | "12v-2x6" | "sata" | "peripheral4"
  /** from the supply along the tray to the furthest such input of the largest board it takes, its card or its bays */
  way_mm: number
}

/** what a part plugs into beside its main place */
export interface PartHeaders {
  /** which part */
  part: string
  /** what it plugs into */
  header: "pump" | "usb2" | "usb3" | "usb-c" | "light-5v" | "light-12v" | "sata-power"
  /** how many plugs; 0 states that there is none */
  count: number
  /** lights and USB 2: current each plug draws, lights with everything white */
  current_a?: number
}

/** mounting sets that are bought apart */
export interface OtherMounts {
  /** a mounting set that is bought apart */
  other: string
  /** the cooler it is for */
  cooler: string
  /** the processor socket it fits then */
  socket: string
}

/** adapters: plugs they use up and plugs they give */
export interface OtherAdapters {
  /** which adapter */
  other: string
  /** plug of the supply it uses up */
  takes: "atx24" | "eps8" | "eps4" | "pcie6" | "pcie8" | "12v-2x6" | "sata" | "peripheral4"
  /** how many of them */
  takes_count: number
  /** plug it gives instead */
  gives: "atx24" | "eps8" | "eps4" | "pcie6" | "pcie8" | "12v-2x6" | "sata" | "peripheral4"
  /** how many of them */
  gives_count: number
}

/** plugs a cable set adds */
export interface OtherCables {
  /** which cable set */
  other: string
  /** plug at the far end */
  connector: "atx24" | "eps8" | "eps4" | "pcie6" | "pcie8" | "12v-2x6" | "sata" | "peripheral4"
  /** plugs it adds to what the supply brings */
  count: number
  /** from the supply along the cable to this plug, the nearest where one cable has several */
  length_mm?: number
}

/** what a hub feeds */
export interface OtherHubs {
  /** which hub */
  other: string
  /** what it feeds */
  feeds: "fan" | "usb2" | "light-5v" | "light-12v"
  /** how many of it at once */
  outputs: number
  /** current all its outputs give together */
  current_a?: number
}

/** games and programs with one preset of settings */
export interface Titles {
  /** slug */
  id: string
  /** title with its preset of settings */
  name: string
  /** processor's share of a frame on the reference processor, mean */
  cpu_ms: number
  /** how far that share follows memory speed */
  memory_share_frac?: number
  /** log-deviation of the processor's share from frame to frame */
  cpu_log_sd: number
  /** shading on the reference card, part that does not follow pixels */
  raster_ms: number
  /** shading per rendered megapixel */
  raster_ms_per_mpix: number
  /** rays on the reference card, part that does not follow pixels */
  ray_ms?: number
  /** rays per rendered megapixel */
  ray_ms_per_mpix?: number
  /** memory traffic of a frame, part that does not follow pixels */
  traffic_gb?: number
  /** memory traffic per rendered megapixel */
  traffic_gb_per_mpix?: number
  /** log-deviation of the card's share from frame to frame */
  gpu_log_sd: number
  /** correlation of the two logs */
  stage_correlation: number
  /** cost of upscaling per output megapixel on the reference card */
  upscale_ms_per_mpix?: number
  /** cost of one generated frame on the reference card */
  generate_ms?: number
  /** engine cap; empty: none known */
  cap_fps?: number
  /** video memory needed, part that does not follow pixels */
  video_memory_gib?: number
  /** video memory needed per output megapixel */
  video_memory_gib_per_mpix?: number
  /** rendered megapixels from which the row is known */
  megapixels_low: number
  /** rendered megapixels up to which the row is known */
  megapixels_high: number
}

/** who sells */
export interface Sellers {
  /** slug */
  id: string
  /** as they call themselves */
  name: string
  /** where they deliver from */
  market: string
  /** most that delivery of one order costs */
  shipping_upper?: string
  /** currency of that amount */
  currency?: string
}

/** prices seen */
export interface Offers {
  /** which part */
  part: string
  /** who offers it */
  seller: string
  /** where it may be bought */
  market: string
  /** day the price was seen */
  seen: string
  /** state of the thing */
  condition: "new" | "refurbished" | "used"
  /** asked for one */
  price: string
  /** of the price */
  currency: string
  /** does the price contain sales tax */
  tax_included: boolean
  /** how many can be had; empty: unknown */
  stock?: number
  /** days until it arrives */
  delivery_days?: number
  /** warranty stated with the offer; 0: stated that there is none */
  warranty_months?: number
  /** whether the publisher earns from the link */
  link_kind?: "plain" | "commission"
}

/** where cells come from and how sure they are */
export interface Provenance {
  /** table of the cell */
  table: string
  /** row key, or * for every row */
  row: string
  /** column, or * for every column */
  column: string
  /** where the value comes from */
  source: string
  /** when it was read */
  seen?: string
  /** how it was found */
  method?: "stated" | "measured" | "estimated" | "invented"
  /** half-width of the value in its column's unit */
  plus_minus?: number
}

/** A catalog of parts, offers and titles */
export interface CatalogJson {
  cpu?: Cpu[]
  board?: Board[]
  memory?: Memory[]
  gpu?: Gpu[]
  storage?: Storage[]
  cooler?: Cooler[]
  case?: Case[]
  psu?: Psu[]
  fan?: Fan[]
  display?: Display[]
  other?: Other[]
  board_m2?: BoardM2[]
  board_slots?: BoardSlots[]
  board_headers?: BoardHeaders[]
  board_firmware?: BoardFirmware[]
  cpu_support?: CpuSupport[]
  cooler_sockets?: CoolerSockets[]
  gpu_inputs?: GpuInputs[]
  gpu_peaks?: GpuPeaks[]
  fan_points?: FanPoints[]
  noise_points?: NoisePoints[]
  gpu_outputs?: GpuOutputs[]
  display_inputs?: DisplayInputs[]
  psu_cables?: PsuCables[]
  case_mounts?: CaseMounts[]
  case_clearances?: CaseClearances[]
  case_fans?: CaseFans[]
  case_ways?: CaseWays[]
  part_headers?: PartHeaders[]
  other_mounts?: OtherMounts[]
  other_adapters?: OtherAdapters[]
  other_cables?: OtherCables[]
  other_hubs?: OtherHubs[]
  titles?: Titles[]
  sellers?: Sellers[]
  offers?: Offers[]
  provenance?: Provenance[]
}
