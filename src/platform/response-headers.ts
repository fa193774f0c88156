/** What the local server says of everything that it gives: of which type it is, and what a browser may do with it. */

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
  "frame-ancestors 'none'",
].join('; ');

/** Goes with refusals too: an answer that says nothing may still be drawn, framed or guessed at. */
export const SECURITY_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': CONTENT_SECURITY_POLICY,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
  'permissions-policy': 'camera=(), geolocation=(), microphone=(), usb=(), serial=(), payment=()',
  'cache-control': 'no-store',
};

const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  css: 'text/css; charset=utf-8',
  svg: 'image/svg+xml',
  json: 'application/json',
  wasm: 'application/wasm',
  woff2: 'font/woff2',
  glb: 'model/gltf-binary',
  txt: 'text/plain; charset=utf-8',
};

export function contentTypeOf(path: string): string {
  const ending = path.slice(path.lastIndexOf('.') + 1);
  return Object.hasOwn(TYPES, ending) ? TYPES[ending]! : 'application/octet-stream';
}
