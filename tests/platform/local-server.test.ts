/** The local server: what it gives, and what it refuses. Header names and meanings: Fetch standard, CSP Level 3, RFC 9110. */
import { request } from 'node:http';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CONTENT_SECURITY_POLICY, type LocalServer, startLocalServer } from '../../src/platform/local-server.js';

const FILES: Readonly<Record<string, string>> = { '/index.html': '<p>page</p>', '/review/report.json': '{}' };
const written: string[] = [];
let server: LocalServer;

beforeAll(async () => {
  server = await startLocalServer({
    read: async (path) => (Object.hasOwn(FILES, path) ? new TextEncoder().encode(FILES[path]) : undefined),
    write: {
      '/review/brief.yaml': async (bytes) => {
        written.push(new TextDecoder().decode(bytes));
        return 'brief.yaml';
      },
    },
  });
});
afterAll(() => server.close());

interface Asked {
  readonly method?: string;
  readonly headers?: Record<string, string>;
  readonly body?: Uint8Array;
}

/** Paths go as they are: fetch would resolve the dots away. */
const ask = (path: string, { method = 'GET', headers = {}, body }: Asked = {}) =>
  new Promise<{ status: number; text: string; headers: Record<string, unknown> }>((done, failed) => {
    const { hostname, port, host } = new URL(server.url);
    const sent = request(
      { hostname, port, path, method, headers: { host, 'content-length': body?.length ?? 0, ...headers } },
      (response) => {
        const parts: Buffer[] = [];
        response.on('data', (part: Buffer) => parts.push(part));
        response.on('end', () =>
          done({
            status: response.statusCode ?? 0,
            text: Buffer.concat(parts).toString('utf8'),
            headers: response.headers,
          }),
        );
      },
    );
    sent.on('error', failed);
    sent.end(body);
  });
const own = (): Record<string, string> => ({ origin: server.url.slice(0, -1) });

describe('what it gives', () => {
  it('listens on the loopback address alone', () => {
    expect(new URL(server.url).hostname).toBe('127.0.0.1');
  });

  it('gives its files with a policy that allows no foreign script', async () => {
    const page = await ask('/');
    expect([page.status, page.text, page.headers['content-type']]).toEqual([
      200,
      '<p>page</p>',
      'text/html; charset=utf-8',
    ]);
    expect(page.headers['content-security-policy']).toBe(CONTENT_SECURITY_POLICY);
    expect(page.headers['x-content-type-options']).toBe('nosniff');
    expect(CONTENT_SECURITY_POLICY).not.toMatch(/'unsafe-(inline|eval)'|https?:|\*/);
  });

  it('answers HEAD without a body', async () => {
    const head = await ask('/review/report.json', { method: 'HEAD' });
    expect([head.status, head.text, head.headers['content-length']]).toEqual([200, '', '2']);
  });
});

describe('what it refuses', () => {
  it.each([
    '/../package.json',
    '/%2e%2e/package.json',
    '/review/../../package.json',
    '/review/%2e%2e%2fpackage.json',
    '/__proto__',
    '/constructor',
    '//etc/passwd',
    '/index.html%00',
  ])('%s', async (path) => {
    expect((await ask(path)).status).toBe(404);
  });

  it('other hosts, as a name that is bound to this address later would send', async () => {
    for (const host of ['example.org', 'localhost', '127.0.0.1'])
      expect((await ask('/', { headers: { host } })).status, host).toBe(403);
  });

  it('pages of other origins', async () => {
    for (const origin of ['http://example.org', 'null', `${server.url.slice(0, -1)}0`])
      expect((await ask('/', { headers: { origin } })).status, origin).toBe(403);
  });

  it('everything but GET, HEAD and the named writes', async () => {
    const body = new TextEncoder().encode('x');
    for (const method of ['POST', 'DELETE', 'PATCH', 'OPTIONS'])
      expect((await ask('/review/brief.yaml', { method, headers: own(), body })).status, method).toBe(405);
    expect((await ask('/review/report.json', { method: 'PUT', headers: own(), body })).status).toBe(405);
    // Without an origin nothing says that a page of this server asked.
    expect((await ask('/review/brief.yaml', { method: 'PUT', body })).status).toBe(405);
    expect(written).toEqual([]);
  });

  it('more than a brief may hold', async () => {
    const body = new Uint8Array((4 << 20) + 1);
    const sent = await ask('/review/brief.yaml', { method: 'PUT', headers: own(), body });
    expect([sent.status, written]).toEqual([413, []]);
  });
});

it('writes what its own pages send', async () => {
  const body = new TextEncoder().encode('kind: project-brief\n');
  const sent = await ask('/review/brief.yaml', { method: 'PUT', headers: own(), body });
  expect([sent.status, sent.text, written]).toEqual([200, 'brief.yaml', ['kind: project-brief\n']]);
});
