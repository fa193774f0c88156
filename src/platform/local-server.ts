/** A web server for this machine alone: files of the viewer, a report, and the few things that may be written. */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** What is asked for by its path, as bytes; undefined: it is not there. */
export type Served = (path: string) => Promise<Uint8Array | undefined>;

export interface LocalServerOptions {
  readonly read: Served;
  /** Paths that may be written, with what writes them; an Error's message goes to the page. */
  readonly write: Readonly<Record<string, (bytes: Uint8Array) => Promise<string>>>;
  /** 0: any that is free. */
  readonly port?: number;
}

export interface LocalServer {
  readonly url: string;
  close(): Promise<void>;
}

const LOOPBACK = '127.0.0.1';
/** A brief has some thousand lines; nothing larger is written here. */
const MOST_BYTES = 4 << 20;

/** No script, style or data but our own files; WebAssembly may be compiled, text may not become code. */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'self'",
].join('; ');

const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  css: 'text/css; charset=utf-8',
  svg: 'image/svg+xml',
  json: 'application/json',
  wasm: 'application/wasm',
  woff2: 'font/woff2',
  glb: 'model/gltf-binary',
};

/** @throws the server's own error where the port is taken */
export async function startLocalServer(options: LocalServerOptions): Promise<LocalServer> {
  let own = '';
  const server = createServer((request, response) => {
    respond(request, response, options, own).catch((error: unknown) =>
      end(response, 500, error instanceof Error ? error.message : String(error)),
    );
  });
  await new Promise<void>((done, failed) => {
    server.once('error', failed);
    server.listen(options.port ?? 0, LOOPBACK, done);
  });
  own = `${LOOPBACK}:${(server.address() as AddressInfo).port}`;
  return {
    url: `http://${own}/`,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

async function respond(
  request: IncomingMessage,
  response: ServerResponse,
  { read, write }: LocalServerOptions,
  own: string,
): Promise<void> {
  // A page elsewhere may name this machine by another name; what it asks for is refused.
  const { host, origin } = request.headers;
  if (host !== own || (origin !== undefined && origin !== `http://${own}`)) {
    end(response, 403, 'only pages of this server may ask it');
    return;
  }
  const path = new URL(request.url ?? '/', `http://${own}`).pathname;
  if (request.method === 'GET' || request.method === 'HEAD') {
    const bytes = await read(path.endsWith('/') ? `${path}index.html` : path);
    if (!bytes) return void end(response, 404, `${path} is not there`);
    response.writeHead(200, { ...headersFor(path), 'content-length': bytes.length });
    response.end(request.method === 'HEAD' ? undefined : bytes);
    return;
  }
  const writes = Object.hasOwn(write, path) ? write[path] : undefined;
  if (request.method !== 'PUT' || !writes || origin === undefined) {
    request.resume(); // unread, what was sent would cut the answer off
    end(response, 405, `${request.method} ${path} is not allowed`);
    return;
  }
  const bytes = await bodyOf(request);
  if (!bytes) return void end(response, 413, `more than ${MOST_BYTES} bytes`);
  end(response, 200, await writes(bytes));
}

function headersFor(path: string): Record<string, string> {
  const ending = path.endsWith('/') ? 'html' : path.slice(path.lastIndexOf('.') + 1);
  return {
    'content-type': TYPES[ending] ?? 'application/octet-stream',
    'content-security-policy': CONTENT_SECURITY_POLICY,
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-resource-policy': 'same-origin',
    'cache-control': 'no-store',
  };
}

/** Undefined: it is too long; what is beyond is read and let go. */
async function bodyOf(request: IncomingMessage): Promise<Uint8Array | undefined> {
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of request) {
    size += (part as Buffer).length;
    if (size <= MOST_BYTES) parts.push(part as Buffer);
  }
  return size > MOST_BYTES ? undefined : Buffer.concat(parts);
}

function end(response: ServerResponse, status: number, text: string): void {
  if (response.headersSent) {
    response.destroy();
    return;
  }
  response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8', 'x-content-type-options': 'nosniff' });
  response.end(text);
}
