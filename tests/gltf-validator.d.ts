/** What the tests ask of the Khronos glTF validator, which has no types of its own. */
declare module 'gltf-validator' {
  export function validateBytes(
    data: Uint8Array,
    options?: { readonly maxIssues?: number },
  ): Promise<{
    readonly issues: {
      readonly numErrors: number;
      readonly numWarnings: number;
      readonly messages: readonly { readonly code: string; readonly message: string; readonly pointer: string }[];
    };
    readonly info: { readonly totalTriangleCount: number; readonly drawCallCount: number };
  }>;
}
