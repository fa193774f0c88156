/**
 * The local server: what it gives, and what it refuses, asked by raw requests. Header names and meanings: Fetch standard, CSP
 * Level 3, Fetch Metadata, RFC 9110; forms of a request target: RFC 9112, 3.2; ways out of a folder: CWE-22 and its children.
 */
import { networkInterfaces } from 'node:os';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type LocalServer, type LocalServerOptions, startLocalServer } from '../../src/platform/local-server.js';
import { CONTENT_SECURITY_POLICY, SECURITY_HEADERS } from '../../src/platform/response-headers.js';
import { type Answer, raw, sendRaw } from './raw-request.js';

const FILES: Readonly<Record<string, string>> = { '/index.html': '<p>page</p>', '/review/report.json': '{}' };
const BRIEF = '/review/brief.yaml';
const written: string[] = [];
let server: LocalServer;

const options: LocalServerOptions = {
  read: async (path) => (Object.hasOwn(FILES, path) ? new TextEncoder().encode(FILES[path]) : undefined),
  write: {
    [BRIEF]: async (bytes) => {
      written.push(new TextDecoder().decode(bytes));
      return 'brief.yaml';
    },
  },
};
beforeAll(async () => {
  server = await startLocalServer(options);
});
afterEach(() => written.splice(0));
afterAll(() => server.close());

const ask = (line: string, headers?: Record<string, string>, body?: string): Promise<Answer> =>
  sendRaw(server.url, raw(server.url, line, headers, body));
const origin = (): string => server.url.slice(0, -1);
const put = (body: string, headers: Record<string, string> = {}): Promise<Answer> =>
  ask(`PUT ${BRIEF}`, { origin: origin(), 'content-length': String(body.length), ...headers }, body);

describe('what it gives', () => {
  it('listens on the loopback address alone', async () => {
    expect(new URL(server.url).hostname).toBe('127.0.0.1');
    const others = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
    for (const { address, family, internal } of others) {
      if (family !== 'IPv4' || internal) continue;
      const elsewhere = new URL(server.url);
      elsewhere.hostname = address;
      expect((await sendRaw(elsewhere.href, raw(server.url, 'GET /'))).status, address).toBe(0);
    }
  });

  it('gives its files with a policy that allows no foreign script', async () => {
    const page = await ask('GET /');
    expect([page.status, page.body, page.headers['content-type']]).toEqual([
      200,
      '<p>page</p>',
      'text/html; charset=utf-8',
    ]);
    expect(page.headers).toMatchObject(SECURITY_HEADERS);
    expect(CONTENT_SECURITY_POLICY).toMatch(/^default-src 'none';/);
    expect(CONTENT_SECURITY_POLICY).not.toMatch(/'unsafe-(inline|eval|hashes)'|https?:|\*/);
  });

  it('answers HEAD without a body', async () => {
    const head = await ask('HEAD /review/report.json');
    expect([head.status, head.body, head.headers['content-length']]).toEqual([200, '', '2']);
  });

  it('writes what its own pages send', async () => {
    const sent = await put('kind: project-brief\n', { 'sec-fetch-site': 'same-origin' });
    expect([sent.status, sent.body, written]).toEqual([200, 'brief.yaml', ['kind: project-brief\n']]);
  });
});

/** With the statuses that it may get; 0: the connection just ends. */
type Refused = readonly [name: string, line: string, headers: Record<string, string>, statuses: readonly number[]];
const REFUSED: readonly Refused[] = [
  ...[
    '/../package.json',
    '/..',
    '/./index.html',
    '/review/../index.html',
    '/review/./report.json',
    '/%2e%2e/package.json',
    '/%2e%2e%2fpackage.json',
    '/%252e%252e%252fpackage.json',
    '/..%5cpackage.json',
    '/..\\package.json',
    '\\..\\package.json',
    '/..%c0%afpackage.json',
    '/..%ef%bc%8fpackage.json',
    '/....//package.json',
    '/..;/package.json',
    '//etc/passwd',
    '///etc/passwd',
    '/C:/Windows/win.ini',
    '/review/C:%5cWindows%5cwin.ini',
    '/file:///etc/passwd',
    '/index.html%00',
    '/index.html%00.png',
    '/index%2ehtml',
    '/index.html/',
    '/INDEX.HTML',
    '/index.html::$DATA',
    '/review',
    '/review//report.json',
    '/review/%72eport.json',
    '/__proto__',
    '/constructor',
    '/hasOwnProperty',
    `/${'a'.repeat(8000)}`,
  ].map((path) => [`path ${path.slice(0, 40)}`, `GET ${path}`, {}, [404, 400]] as const),
  ['absolute form', 'GET http://example.org/', {}, [404]],
  ['absolute form of this server', 'GET http://127.0.0.1/index.html', {}, [404]],
  ['no form at all', 'GET index.html', {}, [404, 400]],
  ['asterisk form', 'OPTIONS *', {}, [405]],
  ['a tunnel', 'CONNECT example.org:443', {}, [0, 403, 405]],
  ['an upgrade to another protocol', 'GET /socket', { upgrade: 'websocket', connection: 'upgrade' }, [404, 0]],
  ...[
    'example.org',
    'localhost',
    '127.0.0.1',
    '127.0.0.1:1',
    '[::1]',
    '0.0.0.0',
    '127.0.0.1.example.org',
    'own@example.org',
  ].map((host) => [`host ${host}`, 'GET /', { host }, [403]] as const),
  ['no host', 'GET /', { host: '' }, [400, 403]],
  ...['http://example.org', 'null', 'https://127.0.0.1', 'file://'].map(
    (other) => [`origin ${other}`, 'GET /', { origin: other }, [403]] as const,
  ),
  ...['cross-site', 'same-site', 'Same-Origin', 'anything'].map(
    (site) => [`fetch from ${site}`, 'GET /', { 'sec-fetch-site': site }, [403]] as const,
  ),
  ...['POST', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE', 'PROPFIND', 'MKCOL', 'MOVE'].map(
    (method) => [`${method} of what may be written`, `${method} ${BRIEF}`, { origin: 'own' }, [405]] as const,
  ),
  ...[
    '/review/report.json',
    '/review/brief.yaml/',
    '/review/../review/brief.yaml',
    '/brief.yaml',
    '/__proto__',
    '/',
  ].map((path) => [`PUT ${path}`, `PUT ${path}`, { origin: 'own' }, [405]] as const),
  ['PUT without an origin', `PUT ${BRIEF}`, {}, [405]],
  ['PUT from elsewhere', `PUT ${BRIEF}`, { origin: 'http://example.org' }, [403]],
  ['a second method by header', `POST ${BRIEF}`, { origin: 'own', 'x-http-method-override': 'PUT' }, [405]],
  ['two lengths', `PUT ${BRIEF}`, { origin: 'own', 'content-length': '0\r\ncontent-length: 5' }, [400]],
  [
    'a length and chunks',
    `PUT ${BRIEF}`,
    { origin: 'own', 'content-length': '3', 'transfer-encoding': 'chunked' },
    [400],
  ],
  ['heads without end', 'GET /', { filler: 'a'.repeat(1 << 17) }, [431, 0]],
];

describe('what it refuses', () => {
  it.each(REFUSED)('%s', async (_, line, headers, statuses) => {
    const own = { ...headers, ...(headers.origin === 'own' && { origin: origin() }) };
    const { status, body, headers: said } = await ask(line, own);
    expect(statuses, `${status} ${body}`).toContain(status);
    expect(body).not.toContain(FILES['/index.html']);
    expect(written).toEqual([]);
    // Refusals of the program itself; what no HTTP parser takes never comes as far.
    if (said['content-type'] !== undefined) expect(said).toMatchObject(SECURITY_HEADERS);
    // Nothing of what was sent comes back.
    expect(body).not.toMatch(/package|passwd|example/);
  });

  it('an origin that is nearly its own', async () => {
    for (const other of [`${origin()}0`, `${origin()}/`, origin().replace('http', 'https'), origin().toUpperCase()])
      expect((await ask('GET /', { origin: other })).status, other).toBe(403);
  });

  it('more than a brief may hold, said or sent', async () => {
    const sent = await put('x'.repeat((4 << 20) + 1));
    expect([sent.status, written]).toEqual([413, []]);
    const chunk = `100000\r\n${'x'.repeat(1 << 20)}\r\n`;
    const chunks = `${chunk.repeat(5)}0\r\n\r\n`;
    const chunked = await ask(`PUT ${BRIEF}`, { origin: origin(), 'transfer-encoding': 'chunked' }, chunks);
    expect([chunked.status, written]).toEqual([413, []]);
  });
});

describe('who is slow', () => {
  const quick = { head: 300, request: 600, idle: 500 };
  let impatient: LocalServer;
  beforeAll(async () => {
    impatient = await startLocalServer({ ...options, patience: quick });
  });
  afterAll(() => impatient.close());
  const own = (): string => impatient.url.slice(0, -1);

  it.each([
    ['says nothing', () => ''],
    ['never ends the head', () => 'GET / HTTP/1.1\r\nhost:'],
    ['never sends the body', () => raw(impatient.url, `PUT ${BRIEF}`, { origin: own(), 'content-length': '5' })],
    [
      'never ends the chunks',
      () => raw(impatient.url, `PUT ${BRIEF}`, { origin: own(), 'transfer-encoding': 'chunked' }, '5\r\nx'),
    ],
    ['keeps a line open', () => raw(impatient.url, 'GET /', { connection: 'keep-alive' })],
  ])('%s: the connection ends', async (_, bytes) => {
    const { status, took } = await sendRaw(impatient.url, bytes(), false);
    expect([0, 200, 408]).toContain(status);
    expect(took).toBeLessThan(20_000);
    expect(written).toEqual([]);
  });
});
