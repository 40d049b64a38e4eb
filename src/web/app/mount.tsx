import { MantineProvider } from "@mantine/core";
import { QueryClient, QueryClientProvider } from "@tanstack/react-query";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { theme } from "../look/theme.ts";
import { App } from "./app.tsx";

/** The server writes a fresh nonce into the page so that generated style elements pass its security policy. */
function styleNonce(): string {
  return document.querySelector<HTMLMetaElement>('meta[name="style-nonce"]')?.content ?? "";
}

export function mount(root: HTMLElement): void {
  const nonce = styleNonce();
  // Scroll locking behind dialogs looks for its nonce in this bundler global.
  Object.assign(globalThis, { __webpack_nonce__: nonce });
  const queries = new QueryClient({ defaultOptions: { queries: { retry: 1, refetchOnWindowFocus: false } } });
  createRoot(root).render(
    <StrictMode>
      <MantineProvider theme={theme} defaultColorScheme="auto" getStyleNonce={() => nonce}>
        <QueryClientProvider client={queries}>
          <App />
        </QueryClientProvider>
      </MantineProvider>
    </StrictMode>,
  );
}
