// Lint rules of the pages: types, Svelte, and what the content security policy forbids.
import js from '@eslint/js'
import svelte from 'eslint-plugin-svelte'
import globals from 'globals'
import ts from 'typescript-eslint'

export default ts.config(
  { ignores: ['dist/', 'node_modules/', 'src/lib/json/'] },
  js.configs.recommended,
  ...ts.configs.strict,
  ...svelte.configs.recommended,
  { languageOptions: { globals: { ...globals.browser } } },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser, extraFileExtensions: ['.svelte'] } },
    rules: {
      'svelte/no-at-html-tags': 'error',
      'no-restricted-syntax': [
        'error',
        { selector: "SvelteAttribute[key.name='style']", message: 'The policy forbids style attributes.' },
        { selector: 'SvelteDirective[kind="Transition"]', message: 'Transitions write style elements.' }
      ],
      'svelte/require-each-key': 'error'
    }
  },
  { files: ['tools/**', '*.config.*'], languageOptions: { globals: { ...globals.node } } },
  {
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'error',
      eqeqeq: 'error',
      'max-lines': ['error', 500]
    }
  }
)
