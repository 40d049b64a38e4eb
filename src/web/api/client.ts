/** A refusal by the server in one plain line. `status` 0 means that it could not be reached. */
export class Refused extends Error {
  readonly status: number;
  constructor(status: number, line: string) {
    super(line);
    this.name = "Refused";
    this.status = status;
  }
}

/** One question to the server. `noted` sees the head of the answer. Throws Refused. */
export async function call<T>(
  method: string,
  path: string,
  body?: unknown,
  signal?: AbortSignal,
  noted?: (head: Headers) => void,
): Promise<T> {
  // A file goes as plain bytes, whatever the browser takes it for: the server looks at them.
  const type =
    typeof body === "string" ? "text/csv" : body instanceof Blob ? "application/octet-stream" : "application/json";
  const init: RequestInit = { method, headers: { accept: "application/json" } };
  if (signal) init.signal = signal;
  if (body !== undefined) {
    init.headers = { accept: "application/json", "content-type": type };
    init.body = typeof body === "string" || body instanceof Blob ? body : JSON.stringify(body);
  }
  let response: Response;
  try {
    response = await fetch(`/api${path}`, init);
  } catch (error) {
    if (signal?.aborted) throw error;
    throw new Refused(0, "the server cannot be reached; your changes are kept in this browser until it answers");
  }
  noted?.(response.headers);
  const answer: unknown = await response.json().catch(() => null);
  if (!response.ok) {
    const line = (answer as { error?: unknown } | null)?.error;
    throw new Refused(response.status, typeof line === "string" ? line : `the server answered ${response.status}`);
  }
  return answer as T;
}
