import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

/** The web app: rooms resolve through package.json `imports`, workers are modules, the server serves dist/web. */
export default defineConfig({
  root: "src/web",
  base: "./",
  plugins: [react()],
  worker: { format: "es" },
  build: {
    outDir: "../../dist/web",
    emptyOutDir: true,
    // The content security policy allows no data: fonts or scripts, so nothing is inlined.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 900,
  },
  server: { host: "127.0.0.1", proxy: { "/api": "http://127.0.0.1:4780" } },
});
