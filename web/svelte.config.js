// Svelte in runes mode; component styles go into files of their own.
import { vitePreprocess } from '@sveltejs/vite-plugin-svelte'

export default {
  preprocess: vitePreprocess({ script: true, style: false }),
  compilerOptions: { runes: true, css: 'external' }
}
