// Makes src/lib/json/*.ts from docs/schema/*.schema.json, the one truth about what the command line
// prints. A definition that several schemas have word for word goes into common.ts; any other stays with
// its schema. `--check` writes nothing and fails when a file is old.
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const web = join(dirname(fileURLToPath(import.meta.url)), '..')
const schema_folder = process.env.RP_SCHEMA ?? join(web, '..', 'docs', 'schema')
const out_folder = join(web, 'src', 'lib', 'json')

const schemas = readdirSync(schema_folder)
  .filter((file) => file.endsWith('.schema.json') && !file.startsWith('sheet.'))
  .sort()
  .map((file) => ({
    name: file.slice(0, -'.schema.json'.length),
    root: JSON.parse(readFileSync(join(schema_folder, file), 'utf8'))
  }))

const pascal = (name) =>
  name
    .split(/[^A-Za-z0-9]+/)
    .filter(Boolean)
    .map((word) => word[0].toUpperCase() + word.slice(1))
    .join('')

function refs_of(node, found = new Set()) {
  if (Array.isArray(node)) node.forEach((each) => refs_of(each, found))
  else if (node && typeof node === 'object') {
    if (typeof node.$ref === 'string') found.add(node.$ref.replace('#/definitions/', ''))
    Object.values(node).forEach((each) => refs_of(each, found))
  }
  return found
}

// By name: the definition that most schemas share, where at least two do and all that it refers to is
// shared too. A schema that means something else by the name keeps its own.
function shared_definitions() {
  const texts = new Map()
  for (const { name, root } of schemas) {
    if (name === 'catalog') continue
    for (const [key, definition] of Object.entries(root.definitions ?? {})) {
      const text = JSON.stringify(definition)
      if (!texts.has(key)) texts.set(key, new Map())
      texts.get(key).set(text, (texts.get(key).get(text) ?? 0) + 1)
    }
  }
  const shared = new Map()
  for (const [key, counts] of texts) {
    const [text, count] = [...counts].sort((a, b) => b[1] - a[1])[0]
    if (count > 1) shared.set(key, JSON.parse(text))
  }
  for (let changed = true; changed; ) {
    changed = false
    for (const [key, definition] of shared)
      if ([...refs_of(definition)].some((ref) => !shared.has(ref))) {
        shared.delete(key)
        changed = true
      }
  }
  return shared
}
const is_shared = (shared, root, key) =>
  shared.has(key) && JSON.stringify(shared.get(key)) === JSON.stringify(root.definitions?.[key])

const comment = (text, pad) =>
  text ? `${pad}/** ${text.replaceAll('*/', '* /').replace(/\s+/g, ' ').trim()} */\n` : ''

function type_of(node, pad) {
  if (node.$ref) return pascal(node.$ref.replace('#/definitions/', ''))
  if ('const' in node) return JSON.stringify(node.const)
  if (node.enum) return node.enum.map((value) => JSON.stringify(value)).join(' | ')
  if (node.oneOf) return node.oneOf.map((each) => type_of(each, pad)).join(' | ')
  if (node.anyOf && node.anyOf.every((each) => each.$ref || each.type))
    return node.anyOf.map((each) => type_of(each, pad)).join(' | ')
  switch (node.type) {
    case 'string':
      return 'string'
    case 'number':
    case 'integer':
      return 'number'
    case 'boolean':
      return 'boolean'
    case 'array':
      return array_of(node, pad)
    case 'object':
      return object_of(node, pad)
    default:
      return 'unknown'
  }
}

function array_of(node, pad) {
  const item = node.items ? type_of(node.items, pad) : 'unknown'
  if (node.minItems && node.minItems === node.maxItems && node.maxItems <= 4)
    return `[${Array(node.maxItems).fill(item).join(', ')}]`
  return /[|{]/.test(item) ? `Array<${item}>` : `${item}[]`
}

function object_of(node, pad) {
  const keys = Object.entries(node.properties ?? {})
  if (keys.length === 0) {
    const rest = node.additionalProperties
    return `Record<string, ${rest && typeof rest === 'object' ? type_of(rest, pad) : 'unknown'}>`
  }
  const required = new Set(node.required ?? [])
  const inner = `${pad}  `
  const lines = keys.map(([key, value]) => {
    const name = /^[A-Za-z_$][\w$]*$/.test(key) ? key : JSON.stringify(key)
    const mark = required.has(key) ? '' : '?'
    return `${comment(value.description, inner)}${inner}${name}${mark}: ${type_of(value, inner)}`
  })
  return `{\n${lines.join('\n')}\n${pad}}`
}

function declaration(name, node) {
  const body = type_of(node, '')
  const about = comment(node.description ?? node.title, '')
  return body.startsWith('{') && body.endsWith('}') && !node.oneOf
    ? `${about}export interface ${name} ${body}\n`
    : `${about}export type ${name} = ${body}\n`
}

const head = (about) => `// ${about} Made by tools/make_types.mjs: not to be edited.\n\n`

function files() {
  const shared = shared_definitions()
  const out = new Map()
  const common = [...shared.keys()].sort().map((key) => declaration(pascal(key), shared.get(key)))
  out.set('common.ts', head('What several of the answers have in common.') + common.join('\n'))
  for (const { name, root } of schemas) {
    const own = Object.entries(root.definitions ?? {}).filter(
      ([key]) => name === 'catalog' || !is_shared(shared, root, key)
    )
    const used = name === 'catalog' ? [] : [...refs_of(root)].filter((key) => is_shared(shared, root, key))
    const direct = new Set([
      ...refs_of({ ...root, definitions: {} }),
      ...own.flatMap(([, node]) => [...refs_of(node)])
    ])
    const imports = used.filter((key) => direct.has(key)).map(pascal).sort()
    const main = `${pascal(name)}Json`
    const parts = own.map(([key, node]) => declaration(pascal(key), node))
    const { $schema, $id, definitions, ...body } = root
    void [$schema, definitions]
    parts.push(declaration(main, { ...body, description: root.title ?? $id }))
    out.set(
      `${name}.ts`,
      head(`The JSON of ${root.$id ?? name}.`) +
        (imports.length ? `import type { ${imports.join(', ')} } from './common'\n\n` : '') +
        parts.join('\n')
    )
  }
  return out
}

const check = process.argv.includes('--check')
let old = 0
mkdirSync(out_folder, { recursive: true })
for (const [file, text] of files()) {
  const path = join(out_folder, file)
  let before = ''
  try {
    before = readFileSync(path, 'utf8')
  } catch {
    before = ''
  }
  if (before === text) continue
  if (check) {
    console.error(`src/lib/json/${file} is older than docs/schema: run npm run types`)
    old += 1
  } else writeFileSync(path, text)
}
process.exit(old > 0 ? 1 : 0)
