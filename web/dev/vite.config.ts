// The page alone, over an invented station: `npm run dev`. STATIONWRIGHT_API=http://127.0.0.1:PORT shows a running program instead.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';
// @ts-expect-error plain JavaScript
import { answer } from './fixture.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const api = process.env.STATIONWRIGHT_API;

const invented = {
  name: 'invented-station',
  configureServer(server: { middlewares: { use: (f: (req: any, res: any, next: () => void) => void) => void } }) {
    server.middlewares.use((req, res, next) => {
      if (!req.url?.startsWith('/api/')) return next();
      const url = new URL(req.url, 'http://127.0.0.1');
      if (url.pathname.endsWith('/api/events')) {
        res.writeHead(200, { 'content-type': 'text/event-stream' });
        res.write(': open\n\n');
        return;
      }
      let text = '';
      req.on('data', (part: string) => (text += part));
      req.on('end', () => {
        const out = answer(req.method, url, text ? JSON.parse(text) : {});
        res.writeHead(out.status, { 'content-type': out.type });
        res.end(out.body);
      });
    });
  },
};

export default defineConfig({
  root: join(here, '..'),
  plugins: [svelte({ configFile: join(here, '../svelte.config.js') }), ...(api ? [] : [invented])],
  server: { host: '127.0.0.1', port: 5199, fs: { allow: [join(here, '../..')] }, proxy: api ? { '/api': api } : undefined },
});
