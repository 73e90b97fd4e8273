// The build: hashed files only, nothing inlined, so that the server's content security policy holds.
import { svelte } from '@sveltejs/vite-plugin-svelte'
import { defineConfig } from 'vitest/config'

export default defineConfig({
  plugins: [svelte()],
  base: '/',
  build: {
    outDir: process.env.RP_WEB_OUT ?? 'dist',
    emptyOutDir: true,
    assetsInlineLimit: 0,
    cssCodeSplit: true,
    target: 'es2022',
    modulePreload: { polyfill: false },
    reportCompressedSize: true,
    chunkSizeWarningLimit: 900
  },
  server: {
    fs: { allow: ['..'] },
    // The service answers only to its own name and to pages of its own place: both are put right here.
    proxy: {
      '/api': {
        target: process.env.RP_API ?? 'http://127.0.0.1:8017',
        changeOrigin: true,
        configure: (proxy) => proxy.on('proxyReq', (request) => request.removeHeader('origin'))
      }
    }
  },
  test: { include: ['src/**/*.test.ts'], environment: 'node' }
})
