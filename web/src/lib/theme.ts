// Light or dark: what the system prefers, or what was chosen here, kept in this browser.
export type Theme = 'system' | 'light' | 'dark'

const key = 'rigproof.theme'

export function stored_theme(): Theme {
  try {
    const found = localStorage.getItem(key)
    return found === 'light' || found === 'dark' ? found : 'system'
  } catch {
    return 'system'
  }
}

export function apply_theme(theme: Theme): void {
  const root = document.documentElement
  if (theme === 'system') root.removeAttribute('data-theme')
  else root.setAttribute('data-theme', theme)
}

export function choose_theme(theme: Theme): void {
  apply_theme(theme)
  try {
    if (theme === 'system') localStorage.removeItem(key)
    else localStorage.setItem(key, theme)
  } catch {
    // Storage may be forbidden; the choice then lasts as long as the page.
  }
}
