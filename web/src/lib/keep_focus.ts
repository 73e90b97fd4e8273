// Where the keyboard's focus goes when what had it is gone, hidden or can no longer be pressed: to what
// stands nearest, never back to the start of the page.

const pressable =
  'a[href], button:not(:disabled), input:not(:disabled), select:not(:disabled), textarea:not(:disabled), summary, [tabindex="0"]'
/** What is folded away in closed details has boxes too. */
const is_seen = (element: Element) => element.checkVisibility() && element.getClientRects().length > 0

/** The nearest behind `from`, else the nearest before it; the first where `from` is not known. */
function nearest_of(found: readonly HTMLElement[], from: Element | undefined): HTMLElement | undefined {
  if (!from) return found[0]
  const behind = found.find(
    (each) => (from.compareDocumentPosition(each) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0 && !from.contains(each)
  )
  return behind ?? found.at(-1)
}

/** Looks after the focus of a page until the answer is called. A pointer may let go of it anywhere. */
export function keep_focus(): () => void {
  let by_key = false
  let last: Element | null = null
  /** From what had the focus up to the page's main part, as it stood then. */
  let chain: Element[] = []
  let frame = 0
  let again = false

  function on_focus(event: FocusEvent) {
    if (!(event.target instanceof Element)) return
    last = event.target
    chain = []
    for (let each: Element | null = last; each && each.tagName !== 'BODY'; each = each.parentElement) {
      chain.push(each)
      if (each.tagName === 'MAIN') break
    }
  }
  function mend() {
    const active = document.activeElement
    if (!by_key || !last || (active && active !== document.body)) return
    if (last.isConnected && !last.matches(':disabled') && is_seen(last)) return // it was left on purpose
    let from: Element | undefined
    for (const each of chain) {
      if (!each.isConnected) continue
      if (each.tagName === 'MAIN' && !from) break
      const found = [...each.querySelectorAll<HTMLElement>(pressable)].filter(is_seen)
      const next = nearest_of(found, from)
      if (next) {
        next.focus({ preventScroll: true })
        next.scrollIntoView({ block: 'nearest' })
        return
      }
      from = each
    }
    const heading = document.querySelector<HTMLElement>('main h1')
    if (!heading) return
    heading.tabIndex = -1
    heading.focus({ preventScroll: true })
  }
  // The browser itself lets go of the focus as late as it draws.
  function soon() {
    again = frame !== 0
    if (again) return
    frame = requestAnimationFrame(() => {
      frame = requestAnimationFrame(() => {
        frame = 0
        mend()
        if (again) soon()
      })
    })
  }
  const on_key = () => (by_key = true)
  const on_pointer = () => (by_key = false)
  const watch = new MutationObserver(soon)
  watch.observe(document.body, { childList: true, subtree: true, attributes: true, attributeFilter: ['disabled', 'hidden'] })
  document.addEventListener('focusin', on_focus)
  document.addEventListener('keydown', on_key, true)
  document.addEventListener('pointerdown', on_pointer, true)
  return () => {
    watch.disconnect()
    cancelAnimationFrame(frame)
    document.removeEventListener('focusin', on_focus)
    document.removeEventListener('keydown', on_key, true)
    document.removeEventListener('pointerdown', on_pointer, true)
  }
}
