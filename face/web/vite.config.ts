import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";

// The build is committed, so it must come out the same on every machine: no source maps, nothing inlined.
// The server forbids inline script and style, so the small helpers that would be inlined are switched off.
export default defineConfig({
  plugins: [svelte({ compilerOptions: { cssHash: ({ hash, name, css }) => `s-${hash(name + css)}` } })],
  build: {
    target: "es2020",
    sourcemap: false,
    assetsInlineLimit: 0,
    cssCodeSplit: false,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  server: { host: "127.0.0.1", proxy: { "/api": "http://127.0.0.1:8080" } },
});
