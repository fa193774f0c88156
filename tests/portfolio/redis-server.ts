/** A Redis of its own for tests: Debian's `redis-server`, on a port that is free, keeping nothing; `.ci/run` installs it. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import type { AddressInfo } from 'node:net';
import { connect, createServer } from 'node:net';

export const hasRedis = spawnSync('redis-server', ['--version']).status === 0;
if (!hasRedis) process.stdout.write('Tests of the queue are skipped: there is no redis-server.\n');

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  await new Promise((done) => server.close(done));
  return port;
}

const servers: ChildProcess[] = [];

export function stopRedis(): void {
  for (const server of servers.splice(0)) server.kill('SIGKILL');
}

/** How many jobs wait in the queue, by the list that BullMQ keeps of them. */
export function waitingIn(redis: string, queue: string): Promise<number> {
  const { hostname, port } = new URL(redis);
  return new Promise((done, failed) => {
    const socket = connect(Number(port), hostname, () => socket.write(`LLEN bull:${queue}:wait\r\n`));
    socket.once('error', failed);
    // An integer of its protocol: `:12`.
    socket.once('data', (answer) => {
      socket.destroy();
      done(Number(answer.toString().slice(1)));
    });
  });
}

/** Its address. Whoever starts one stops all in the end. */
export async function startRedis(): Promise<string> {
  const port = await freePort();
  const server: ChildProcess = spawn(
    'redis-server',
    ['--port', String(port), '--bind', '127.0.0.1', '--save', '', '--appendonly', 'no'],
    { stdio: ['ignore', 'pipe', 'pipe'] },
  );
  servers.push(server);
  await new Promise<void>((done, failed) => {
    server.once('exit', (code) => failed(new Error(`redis-server ended with ${code}`)));
    server.stdout!.on('data', (part: Buffer) => {
      if (part.toString().includes('Ready to accept connections')) done();
    });
  });
  return `redis://127.0.0.1:${port}`;
}
