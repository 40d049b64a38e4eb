import type { Socket } from "node:net";

interface WireError extends Error {
  readonly code?: string;
}

const said: Readonly<Record<string, readonly [string, string]>> = {
  ERR_HTTP_REQUEST_TIMEOUT: ["408 Request Timeout", "invalid request: it did not come to its end in time"],
  HPE_HEADER_OVERFLOW: ["431 Request Header Fields Too Large", "invalid request: its head is too large"],
};
const otherwise = ["400 Bad Request", "invalid request: it cannot be read as HTTP"] as const;

/** Answers what never became a request, in the shape of every other refusal, and hangs up. */
export function answerBroken(error: WireError, socket: Socket): void {
  // Whoever has gone already hears nothing.
  if (error.code === "ECONNRESET" || socket.destroyed || !socket.writable) {
    socket.destroy();
    return;
  }
  const [status, line] = said[error.code ?? ""] ?? otherwise;
  const body = JSON.stringify({ error: line });
  const head = ["content-type: application/json", `content-length: ${body.length}`, "connection: close"];
  socket.end(`HTTP/1.1 ${status}\r\n${head.join("\r\n")}\r\n\r\n${body}`, () => socket.destroy());
}
