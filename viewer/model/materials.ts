/** How surfaces and lines are shaded: flat colours of the page, hatches by where a point is, and one cut. */
import { DoubleSide, ShaderMaterial, type Texture, Vector3, type Vector4 } from 'three';
import { PATTERN, type Pattern } from './element-state.js';
import type { Cut } from './standpoint.js';

/** Shared by all materials of a scene, so that one change reaches all. */
export interface SharedUniforms {
  readonly cut: { value: Vector4 };
  readonly states: { value: Texture };
  readonly own: { value: Vector3 };
  readonly selected: { value: Vector3 };
}

export const NO_CUT = [0, 0, 0, 1] as const;

export function cutVector(cut: Cut | null, target: Vector4, further = 0): void {
  if (!cut) target.set(...NO_CUT);
  else {
    const [x, y, z] = cut.outwards;
    target.set(x, y, z, cut.at[0] * x + cut.at[1] * y + cut.at[2] * z + further);
  }
}

const VERTEX = /* glsl */ `
  #ifdef BY_ELEMENT
  attribute float id;
  uniform highp sampler2D states;
  flat varying vec2 vState;
  #endif
  varying highp vec3 vPosition;
  void main() {
    vPosition = position;
    gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
    #ifdef BY_ELEMENT
    int number = int(id + 0.5);
    int across = textureSize(states, 0).x;
    vState = floor(texelFetch(states, ivec2(number % across, number / across), 0).rg * 255.0 + 0.5);
    // Outside of what is drawn.
    #ifdef SURFACE
    bool hidden = vState.r == 0.0 || vState.r == 4.0;
    #else
    bool hidden = vState.r == 0.0;
    #endif
    if (hidden) gl_Position = vec4(2.0, 2.0, 2.0, 1.0);
    #endif
  }`;

const COMMON = /* glsl */ `
  precision highp float;
  varying highp vec3 vPosition;
  uniform vec4 cut;
  uniform vec3 colour;
  uniform float opacity;
  #ifdef BY_ELEMENT
  flat varying vec2 vState;
  #endif`;

/** Distances are millimetres in the plane of the surface; lines stay one pixel wide and fade where they would run together. */
const SURFACE = /* glsl */ `${COMMON}
  uniform vec3 lineColour;
  uniform float lineOpacity;
  uniform float pattern;
  uniform float shade;
  float stroke(float at, float spacing) {
    float part = fract(at / spacing);
    float pixel = max(fwidth(at), 1e-4);
    float near = 1.0 - smoothstep(0.2 * pixel, 0.9 * pixel, min(part, 1.0 - part) * spacing);
    return near * smoothstep(4.0, 7.0, spacing / pixel);
  }
  float wave(vec2 p) { return stroke(p.y + 22.0 * sin(p.x / 30.0), 110.0); }
  float hatch(float kind, vec2 p) {
    float diagonal = (p.x + p.y) * 0.70710678;
    if (kind < 0.5) return 0.0;
    if (kind < 1.5) return stroke(diagonal, 200.0);
    if (kind < 2.5) return stroke(diagonal, 140.0);
    if (kind < 3.5) return stroke(diagonal, 90.0);
    if (kind < 4.5) {
      float pixel = max(fwidth(p.x), fwidth(p.y));
      vec2 part = abs(fract(p / 120.0 + 0.5) - 0.5) * 120.0;
      return (1.0 - smoothstep(0.7 * pixel, 1.5 * pixel, length(part))) * smoothstep(3.0, 6.0, 120.0 / pixel);
    }
    if (kind < 5.5) return wave(p);
    if (kind < 6.5) return max(wave(p), wave(p.yx));
    return stroke((p.x - p.y) * 0.70710678, 70.0);
  }
  void main() {
    if (dot(vPosition, cut.xyz) > cut.w) discard;
    vec3 across = cross(dFdx(vPosition), dFdy(vPosition));
    vec3 normal = across / max(length(across), 1e-9);
    bool level = abs(normal.z) > 0.7;
    vec2 aside = level ? vec2(1.0, 0.0) : normalize(vec2(-normal.y, normal.x));
    // One way round on both sides of a wall.
    if (aside.x < -1e-3 || (abs(aside.x) <= 1e-3 && aside.y < 0.0)) aside = -aside;
    vec2 plane = level ? vPosition.xy : vec2(dot(vPosition.xy, aside), vPosition.z);
    #ifdef BY_ELEMENT
    float kind = max(pattern, vState.g);
    #else
    float kind = pattern;
    #endif
    float line = hatch(kind, plane) * lineOpacity;
    // Surfaces that look up are a little lighter than upright ones, so that shapes can be read without any light.
    float dim = 1.0 - shade * (1.0 - abs(normal.z)) * (0.5 + 0.5 * abs(normal.x));
    float alpha = opacity + (1.0 - opacity) * line;
    gl_FragColor = vec4(mix(colour * dim, lineColour, line / max(alpha, 1e-3)), alpha);
  }`;

const LINE = /* glsl */ `${COMMON}
  uniform vec3 own;
  uniform vec3 selected;
  void main() {
    if (dot(vPosition, cut.xyz) > cut.w) discard;
    #ifdef BY_ELEMENT
    vec3 stated = vState.r == 3.0 ? selected : (vState.r == 2.0 || vState.r == 4.0) ? own : colour;
    float strength = vState.r >= 2.0 ? 1.0 : opacity;
    gl_FragColor = vec4(stated, strength);
    #else
    gl_FragColor = vec4(colour, opacity);
    #endif
  }`;

export interface SurfaceLook {
  readonly opacity: number;
  readonly pattern?: Pattern;
  readonly lineOpacity?: number;
  readonly shade?: number;
  /** Whether each vertex names its element, whose state is in the texture. */
  readonly byElement: boolean;
}

export function surfaceMaterial(shared: SharedUniforms, look: SurfaceLook): ShaderMaterial {
  const isOpaque = look.opacity === 1;
  return new ShaderMaterial({
    vertexShader: VERTEX,
    fragmentShader: SURFACE,
    defines: { SURFACE: 1, ...(look.byElement && { BY_ELEMENT: 1 }) },
    uniforms: {
      ...{
        cut: shared.cut,
        states: shared.states,
        colour: { value: new Vector3() },
        lineColour: { value: new Vector3() },
      },
      ...{ opacity: { value: look.opacity }, lineOpacity: { value: look.lineOpacity ?? 0 } },
      ...{ pattern: { value: look.pattern ?? PATTERN.none }, shade: { value: look.shade ?? 0 } },
    },
    side: DoubleSide,
    transparent: !isOpaque,
    depthWrite: isOpaque,
    // Edges lie on surfaces.
    ...{ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 2 },
  });
}

export function lineMaterial(shared: SharedUniforms, opacity: number, byElement = true): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: VERTEX,
    fragmentShader: LINE,
    defines: byElement ? { BY_ELEMENT: 1 } : {},
    uniforms: {
      ...{ cut: shared.cut, states: shared.states, own: shared.own, selected: shared.selected },
      ...{ colour: { value: new Vector3() }, opacity: { value: opacity } },
    },
    transparent: opacity < 1,
    depthWrite: false,
  });
}
