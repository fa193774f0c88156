declare module 'hershey' {
  /** Strokes of the Roman Simplex letters, y upwards, capitals from -9 to 12; centred on the origin. */
  export function stringToPaths(text: string): {
    readonly bounds: { readonly minX: number; readonly maxX: number; readonly minY: number; readonly maxY: number };
    readonly paths: readonly (readonly (readonly [number, number])[])[];
  };
}
