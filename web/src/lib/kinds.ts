// What a person calls a kind of part.
const words: Readonly<Record<string, string>> = {
  cpu: 'processor', gpu: 'card', psu: 'supply', storage: 'drive', other: 'small part'
}
export const kind_words = (kind: string): string => words[kind] ?? kind
/** Where it begins a sentence or a line. */
export function kind_title(kind: string): string {
  const said = kind_words(kind)
  return said.charAt(0).toUpperCase() + said.slice(1)
}
