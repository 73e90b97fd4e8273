// Numbers as a person reads them: the digits, grouping and rounding that the published sheet uses.

/** Decimal places of an ISO 4217 currency's minor unit. */
const other_digits: Readonly<Record<string, number>> = Object.fromEntries([
  ...'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'
    .split(' ')
    .map((code) => [code, 0]),
  ...'BHD IQD JOD KWD LYD OMR TND'.split(' ').map((code) => [code, 3]),
  ...'CLF UYW'.split(' ').map((code) => [code, 4])
])

export function minor_digits(currency: string): number {
  return other_digits[currency] ?? 2
}

export function is_currency(unit: string): boolean {
  return /^[A-Z]{3}$/.test(unit)
}

/** To so many decimals; an exact half goes to the even digit. */
export function fixed(value: number, decimals: number): string {
  const size = Math.abs(value)
  let text = size.toFixed(decimals)
  const exact = size.toFixed(Math.min(100, decimals + 60))
  const tail = exact.slice(exact.indexOf('.') + 1 + decimals)
  if (/^50*$/.test(tail) && /[13579]$/.test(text)) {
    const step = 10 ** -decimals
    text = (Number(text) - step).toFixed(decimals)
  }
  return value < 0 && /[1-9]/.test(text) ? `-${text}` : text
}

/** `12,345.5`: commas from five digits on, none after the point. */
export function grouped(text: string): string {
  const found = /^(-?)(\d+)(\.\d+)?$/.exec(text)
  if (!found) return text
  const [, sign = '', whole = '', rest = ''] = found
  if (whole.length < 5) return text
  return sign + whole.replace(/\B(?=(\d{3})+$)/g, ',') + rest
}

/** So many significant digits, no zeros behind, grouped. `?` for what is no number. */
export function readable(value: number, significant = 3): string {
  if (!Number.isFinite(value)) return '?'
  if (value === 0) return '0'
  const magnitude = Math.floor(Math.log10(Math.abs(value)))
  const decimals = Math.min(9, Math.max(0, significant - 1 - magnitude))
  let text = fixed(value, decimals)
  if (decimals > 0) text = text.replace(/0+$/, '').replace(/\.$/, '')
  return text === '-0' ? '0' : grouped(text)
}

/** `1,350.00` from minor units, exact: no floating point. */
export function minor_words(minor: number, digits: number): string {
  const whole = Math.abs(Math.trunc(minor)).toString().padStart(digits + 1, '0')
  const cut = whole.length - digits
  const front = whole.slice(0, cut).replace(/\B(?=(\d{3})+$)/g, ',')
  return (minor < 0 ? '-' : '') + front + (digits > 0 ? `.${whole.slice(cut)}` : '')
}
