import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const here = import.meta.dirname;
const server = process.env.SLIPDRIFT_SERVER ?? 'http://127.0.0.1:4280';

export default defineConfig({
  root: here,
  plugins: [react()],
  cacheDir: `${here}/../.cache/vite`,
  build: {
    outDir: `${here}/dist`,
    emptyOutDir: true,
    target: 'es2022',
    manifest: true,
    modulePreload: { polyfill: false },
    // ECharts alone is larger than the default warning line; it is loaded when a chart is shown.
    chunkSizeWarningLimit: 700,
  },
  server: { proxy: { '/api': server, '/health': server } },
});
