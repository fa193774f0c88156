/** Requests as bytes on a socket: clients mend what they are given, an attacker does not. */
import { connect } from 'node:net';

export interface Answer {
  /** 0: the connection ended without an answer. */
  readonly status: number;
  /** By name in small letters. */
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
  /** ms from the first byte sent to the end of the connection. */
  readonly took: number;
}

/** @param closes false: nothing says that the request ends here */
export function sendRaw(url: string, bytes: string | Uint8Array, closes = true): Promise<Answer> {
  const { hostname, port } = new URL(url);
  const start = performance.now();
  return new Promise((done) => {
    const socket = connect(Number(port), hostname);
    const parts: Buffer[] = [];
    socket.on('data', (part) => parts.push(part));
    // Cut off is an answer too; the part that came is looked at.
    socket.on('error', () => socket.destroy());
    socket.on('close', () =>
      done({ ...parsed(Buffer.concat(parts).toString('utf8')), took: performance.now() - start }),
    );
    if (closes) socket.end(bytes);
    else socket.write(bytes);
  });
}

/** A whole request with its own Host and without more headers than are named; a header given as '' is left out. */
export function raw(url: string, line: string, headers: Readonly<Record<string, string>> = {}, body = ''): string {
  const all = { host: new URL(url).host, connection: 'close', ...headers };
  const fields = Object.entries(all).flatMap(([name, value]) => (value === '' ? [] : [`${name}: ${value}\r\n`]));
  return `${line} HTTP/1.1\r\n${fields.join('')}\r\n${body}`;
}

function parsed(text: string): Pick<Answer, 'status' | 'headers' | 'body'> {
  const [head = '', ...rest] = text.split('\r\n\r\n');
  const [status = '', ...fields] = head.split('\r\n');
  const headers = fields
    .map((field) => /^([^:]+): ?(.*)$/.exec(field))
    .flatMap((f) => (f ? [[f[1]!.toLowerCase(), f[2]!]] : []));
  return {
    status: Number(/^HTTP\/1\.1 (\d{3})/.exec(status)?.[1] ?? 0),
    headers: Object.fromEntries(headers) as Record<string, string>,
    body: rest.join('\r\n\r\n'),
  };
}
