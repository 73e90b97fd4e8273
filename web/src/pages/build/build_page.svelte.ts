// What every page of one build begins with: the build of its address, the brief it is judged under, both
// put on the bench, and the title block.
import { untrack } from 'svelte'
import { bench } from '../../lib/bench.svelte'
import { facts_of_brief, type BriefFacts } from './brief_facts'
import { KeptBuild } from './kept_build.svelte'

export interface OfAddress {
  id: string
  brief: string
}
export interface PageWords {
  /** In the window's title. */
  title: (name: string) => string
  /** Where no build is chosen. */
  none: { title: string; of: string }
}

export class BuildPage {
  kept = new KeptBuild()
  /** Null: there is no such brief, or none is given. */
  facts = $state.raw<BriefFacts | null>(null)
  #of: () => OfAddress
  id = $derived.by(() => this.#of().id)
  draft = this.kept.draft
  /** The build of the address was read. */
  there = $derived(this.id !== '' && this.draft.id === this.id && !this.draft.loading && this.draft.revision > 0)
  name = $derived(this.there ? this.draft.name : bench.name_of(this.id))

  /** To be made where a page begins: it has effects. In: `of` reads the page's properties. */
  constructor(of: () => OfAddress, words: PageWords) {
    this.#of = of
    $effect(() => {
      const { id } = this
      untrack(() => {
        if (id) void this.kept.open(id)
      })
    })
    $effect(() => {
      const { id, there, facts } = this
      const { brief } = of()
      const removed = this.kept.removed
      untrack(() => {
        if (there && !removed) bench.take({ build: id, brief: facts ? brief : '' })
        else if (there && bench.build === id) bench.build = ''
      })
    })
    $effect(() => {
      const { brief } = of()
      const reading = new AbortController()
      void facts_of_brief(brief, reading.signal).then((found) => {
        if (!reading.signal.aborted) this.facts = found
      })
      return () => reading.abort()
    })
    $effect(() => {
      const { brief } = of()
      bench.shown = this.id
        ? {
            title: words.title(this.name || 'a build'), of: this.name, brief: bench.name_of(brief), ...this.facts,
            revision: this.there ? String(this.draft.revision) : undefined
          }
        : words.none
    })
  }
}
