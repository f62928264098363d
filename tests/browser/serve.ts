import { readFileSync } from "node:fs";
import { type AddressInfo } from "node:net";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";

const types: Record<string, string> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".png": "image/png",
};

/** Serves a folder of plain files on the loopback address, as any web server would. */
export async function serve(folder: string): Promise<{ address: string; close: () => Promise<void> }> {
  const server = createServer((request, response) => {
    const path = normalize(new URL(request.url ?? "/", "http://localhost").pathname);
    try {
      const content = readFileSync(join(folder, path));
      response.writeHead(200, { "content-type": types[extname(path)] ?? "application/octet-stream" }).end(content);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    close: () => new Promise((resolve) => void server.close(() => resolve())),
  };
}
