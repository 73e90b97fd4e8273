// Numbers such as `1.5e20` in sentences of the command line, to be set with a real exponent.
export interface Power {
  digits: string
  exponent: string
}

// As app/outlook_words.hpp writes them: one digit, a point, one digit; 15 and more.
const written = /(?<![\w.-])(\d\.\d)e(\d\d)(?![\w-]|\.\d)/g

/** The text in pieces: words as they are, and such numbers. */
export function with_powers(text: string): Array<string | Power> {
  const out: Array<string | Power> = []
  let at = 0
  for (const found of text.matchAll(written)) {
    const [whole, digits = '', exponent = ''] = found
    if (found.index > at) out.push(text.slice(at, found.index))
    out.push({ digits, exponent })
    at = found.index + whole.length
  }
  if (at < text.length) out.push(text.slice(at))
  return out
}
