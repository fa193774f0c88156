/** A web server for this machine alone: files of the viewer, a report, and the few things that may be written. */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { contentTypeOf, SECURITY_HEADERS } from './response-headers.js';

/** What is asked for by its path, as bytes; undefined: it is not there. The path is as it came: nothing is decoded. */
export type Served = (path: string) => Promise<Uint8Array | undefined>;

export interface LocalServerOptions {
  readonly read: Served;
  /** Paths that may be written, with what writes them; an Error's message goes to the page. */
  readonly write: Readonly<Record<string, (bytes: Uint8Array) => Promise<string>>>;
  /** 0: any that is free. */
  readonly port?: number;
  readonly patience?: Patience;
}

/** Milliseconds after which whoever is slower is cut off. */
export interface Patience {
  /** For the whole head of a request. */
  readonly head: number;
  /** For the whole request with its body. */
  readonly request: number;
  /** With nothing sent and nothing taken. */
  readonly idle: number;
}

export interface LocalServer {
  readonly url: string;
  close(): Promise<void>;
}

const LOOPBACK = '127.0.0.1';
/** A brief has some thousand lines; nothing larger is written here. */
const MOST_BYTES = 4 << 20;
/** A browser opens six to one server. */
const MOST_CONNECTIONS = 100;
/** 4 MB come from the same machine in well under a second; pages of a busy one take their time to fetch a report. */
const PATIENCE: Patience = { head: 10_000, request: 30_000, idle: 60_000 };

/** @throws the server's own error where the port is taken */
export async function startLocalServer(options: LocalServerOptions): Promise<LocalServer> {
  let own = '';
  const { head, request: whole, idle } = options.patience ?? PATIENCE;
  const limits = {
    ...{ headersTimeout: head, requestTimeout: whole, connectionsCheckingInterval: Math.min(1000, head) },
    keepAliveTimeout: Math.min(5000, idle),
  };
  const server = createServer(limits, (request, response) => {
    respond(request, response, options, own).catch((error: unknown) =>
      end(response, 500, error instanceof Error ? error.message : String(error)),
    );
  });
  server.maxConnections = MOST_CONNECTIONS;
  server.setTimeout(idle);
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
  if (!isOurs(request, own)) {
    request.resume(); // unread, what was sent would cut the answer off
    return void end(response, 403, 'only pages of this server may ask it');
  }
  const path = pathOf(request.url ?? '');
  if (request.method === 'GET' || request.method === 'HEAD') {
    request.resume();
    const bytes = path === undefined ? undefined : await read(path);
    if (path === undefined || !bytes) return void end(response, 404, 'there is nothing here');
    response.writeHead(200, {
      ...SECURITY_HEADERS,
      'content-type': contentTypeOf(path),
      'content-length': bytes.length,
    });
    response.end(request.method === 'HEAD' ? undefined : bytes);
    return;
  }
  const writes = path !== undefined && Object.hasOwn(write, path) ? write[path] : undefined;
  // A browser names the page that writes; without an origin nothing says that it is one of ours.
  if (request.method !== 'PUT' || !writes || request.headers.origin === undefined) {
    request.resume();
    return void end(response, 405, 'that is not allowed here');
  }
  const bytes = await bodyOf(request);
  if (!bytes) return void end(response, 413, `more than ${MOST_BYTES} bytes`);
  end(response, 200, await writes(bytes));
}

/**
 * A page elsewhere may name this machine by another name (DNS rebinding), or let the browser ask for it: all that a browser
 * says of who asks has to be this server. Sec-Fetch-Site is `none` where a person typed the address.
 */
function isOurs({ headers }: IncomingMessage, own: string): boolean {
  const { host, origin, 'sec-fetch-site': site } = headers;
  return (
    host === own &&
    (origin === undefined || origin === `http://${own}`) &&
    (site === undefined || site === 'same-origin' || site === 'none')
  );
}

/** Of a request target in origin form (RFC 9112, 3.2.1), as it came; undefined: it has another form. */
function pathOf(target: string): string | undefined {
  const path = target.split('?', 1)[0]!;
  if (!path.startsWith('/') || path.startsWith('//')) return undefined;
  return path.endsWith('/') ? `${path}index.html` : path;
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
  const bytes = new TextEncoder().encode(text);
  const headers = { 'content-type': contentTypeOf('.txt'), 'content-length': bytes.length };
  response.writeHead(status, { ...SECURITY_HEADERS, ...headers });
  response.end(bytes);
}
