import react from '@vitejs/plugin-react';
import { defaultClientConditions, defineConfig } from 'vite';

// DYEWRIGHT_API: where `vite` in development sends /api, a shop being served elsewhere on this machine.
const api = process.env.DYEWRIGHT_API ?? 'http://127.0.0.1:4710';

export default defineConfig({
  root: 'src/web',
  plugins: [react()],
  resolve: { conditions: ['source', ...defaultClientConditions] },
  server: {
    host: '127.0.0.1',
    // The page's own folder src/web/api is not the server's; the server answers none but its own page.
    proxy: {
      '^/api/(?!.*\\.tsx?(\\?|$))': { target: api, changeOrigin: true, headers: { origin: api } },
    },
  },
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    // Nothing inlined as data: so that the server's content security policy can stay narrow.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: 'es2022',
    // three.js is one chunk by itself, fetched only when a piece is shown.
    chunkSizeWarningLimit: 800,
  },
});
