/** Ends a wait that would never end by itself; when all is well it costs nothing. */
export async function within<T>(deadlineMs: number, what: string, work: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const deadline = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(new Error(`${what}: no end within ${deadlineMs} ms`)), deadlineMs);
  });
  try {
    return await Promise.race([work, deadline]);
  } finally {
    clearTimeout(timer);
  }
}

/** How long the whole suite in the extension host may take, its editor's start included. */
export const SUITE_DEADLINE_MS = 150_000;
