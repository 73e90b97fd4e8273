// The addresses of the pages. Each page is loaded when it is first visited.
import type { Component } from 'svelte'

export interface PageProps {
  /** Of the path: `build`, `brief`, `table`. */
  parameters: Record<string, string>
  query: URLSearchParams
}
export interface Page {
  name: 'start' | 'about' | 'brief' | 'plan' | 'claims' | 'case' | 'air' | 'parts' | 'sheet'
  /** A page that needs nothing of its address takes no properties. */
  load: () => Promise<{ default: Component<PageProps> | Component<Record<string, never>> }>
}

const start: Page = { name: 'start', load: () => import('./Start.svelte') }
const about: Page = { name: 'about', load: () => import('./Opening.svelte') }
const brief: Page = { name: 'brief', load: () => import('./brief/BriefPage.svelte') }
const plan: Page = { name: 'plan', load: () => import('./plan/PlanPage.svelte') }
const claims: Page = { name: 'claims', load: () => import('./claims/ClaimsPage.svelte') }
const chassis: Page = { name: 'case', load: () => import('./case/CasePage.svelte') }
const air: Page = { name: 'air', load: () => import('./air/AirPage.svelte') }
const parts: Page = { name: 'parts', load: () => import('./parts/PartsPage.svelte') }
const sheet: Page = { name: 'sheet', load: () => import('./sheet/SheetPage.svelte') }

export const routes: ReadonlyArray<{ path: string; page: Page }> = [
  { path: '/', page: start },
  { path: '/about', page: about },
  { path: '/brief', page: brief },
  { path: '/brief/:brief', page: brief },
  { path: '/plan', page: plan },
  { path: '/plan/:brief', page: plan },
  { path: '/claims', page: claims },
  { path: '/claims/:build', page: claims },
  { path: '/case', page: chassis },
  { path: '/case/:build', page: chassis },
  { path: '/air', page: air },
  { path: '/air/:build', page: air },
  { path: '/parts', page: parts },
  { path: '/parts/:table', page: parts },
  { path: '/sheet', page: sheet },
  { path: '/sheet/:build', page: sheet }
]
