/** Files in from a server and out to the person. */
import { type Geometry, GeometryError, readGeometry } from '../model/geometry.js';
import { WorkFault } from './client.js';
import type { DroppedFile } from './protocol.js';

/** Undefined: it is not there. @throws WorkFault */
export async function fetched(url: URL): Promise<ArrayBuffer | undefined> {
  const response = await fetch(url).catch((error: unknown) => {
    throw new WorkFault(`${url.pathname} can not be read (${error instanceof Error ? error.message : String(error)}).`);
  });
  if (response.status === 404) return undefined;
  if (!response.ok)
    throw new WorkFault(`${url.pathname} can not be read (${response.status}); check the models again.`);
  return response.arrayBuffer();
}

export interface Saved {
  readonly file: string;
  /** True: the local server wrote it beside the report; false: it is among the downloads. */
  readonly onServer: boolean;
}

/** @param to where a server takes it; null: it is downloaded @throws WorkFault */
export async function saveText(to: URL | null, file: string, text: string): Promise<Saved> {
  if (!to) {
    download(file, new TextEncoder().encode(text));
    return { file, onServer: false };
  }
  const response = await fetch(to, { method: 'PUT', body: text }).catch((error: unknown) => {
    throw new WorkFault(
      `${to.pathname} can not be written (${error instanceof Error ? error.message : String(error)}); is the program still running?`,
    );
  });
  if (!response.ok) throw new WorkFault(`${to.pathname} can not be written: ${await response.text()}`);
  return { file: await response.text(), onServer: true };
}

export function download(file: string, bytes: Uint8Array): void {
  const url = URL.createObjectURL(new Blob([bytes as Uint8Array<ArrayBuffer>]));
  const link = document.createElement('a');
  link.href = url;
  link.download = file;
  link.click();
  // The browser has begun to read it by then.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

export const droppedFile = async (file: File): Promise<DroppedFile> => ({
  name: file.name,
  bytes: await bytesOf(file),
});

export const bytesOf = async (file: File): Promise<Uint8Array> => new Uint8Array(await file.arrayBuffer());

export const nameOf = ({ pathname }: URL): string => pathname.slice(pathname.lastIndexOf('/') + 1);

/** @throws WorkFault */
export function geometryOf(bytes: ArrayBuffer): Geometry {
  try {
    return readGeometry(bytes);
  } catch (error) {
    throw error instanceof GeometryError ? new WorkFault(`geometry.glb ${error.message}`) : error;
  }
}
