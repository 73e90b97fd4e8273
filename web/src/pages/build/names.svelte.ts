// Names of parts, kind by kind, as they are asked for.
import { part_names, type PartName } from '../../lib/documents'

export class Names {
  #known = $state.raw<Record<string, readonly PartName[]>>({})
  #wanted: string[] = []

  want(kind: string): void {
    if (this.#wanted.includes(kind)) return
    this.#wanted.push(kind)
    part_names(kind).then(
      (parts) => (this.#known = { ...this.#known, [kind]: parts }),
      // Asked again where it is needed next; until then ids stand for names.
      () => (this.#wanted = this.#wanted.filter((each) => each !== kind))
    )
  }
  of(kind: string): readonly PartName[] {
    return this.#known[kind] ?? []
  }
  is_known(kind: string): boolean {
    return kind in this.#known
  }
  name(kind: string, id: string): string {
    return this.of(kind).find((part) => part.id === id)?.name ?? id
  }
}
