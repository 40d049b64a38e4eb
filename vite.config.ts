import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

const file = (path: string): string => new URL(path, import.meta.url).pathname;

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
    rolldownOptions: {
      input: {
        index: file("src/web/index.html"),
        // Keeps the run list for when the network is lost: a file of its own, whose place and name never change.
        "bench-keeper": file("src/web/bench/keeper.ts"),
      },
      output: {
        entryFileNames: ({ name }) => (name === "bench-keeper" ? "[name].js" : "assets/[name]-[hash].js"),
      },
    },
  },
  server: { host: "127.0.0.1", proxy: { "/api": "http://127.0.0.1:4780" } },
});
