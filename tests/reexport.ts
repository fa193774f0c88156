/**
 * What happens to an IFC file between two revisions, done to its text: exported again under new GlobalIds, walls moved,
 * ducts resized, elements deleted, lines in another order. What became of which GlobalId is known, so it is the truth
 * that matching is measured against.
 */
import { globalIdOf } from '../fixtures/ifc-writer.js';

export type Edit = (text: string) => string;

/** What has a GlobalId has its owner history behind it; a property's name may have 22 characters too. */
const ROOT = /(=IFC\w+\(')([0-9A-Za-z_$]{22})(',#)/g;

/** The GlobalId that {@link withNewIds} gives for an old one. */
export const newIdOf = (old: string, seed: string): string => globalIdOf(`${seed}/${old}`);

/** As an authoring program does that makes its GlobalIds anew with every export. */
export const withNewIds =
  (seed: string): Edit =>
  (text) =>
    text.replace(ROOT, (_, before: string, id: string, after: string) => `${before}${newIdOf(id, seed)}${after}`);

/** Moves a product by its placement, and with it what is placed relative to it: a wall with its openings. */
export const moved =
  (name: string, by: readonly [number, number, number]): Edit =>
  (text) => {
    const product = productLine(text, name);
    const placement = lineOf(text, /#\d+/.exec(product.args.split(',').slice(5).join(','))![0]);
    const [parent, axis] = placement.args.split(',') as [string, string];
    const location = lineOf(text, lineOf(text, axis).args.split(',')[0]!);
    const at = location.args.replace(/[()]/g, '').split(',').map(Number);
    const next = lastId(text) + 1;
    const point = at.map((v, i) => realOf(v + by[i]!)).join(',');
    const rest = lineOf(text, axis).args.split(',').slice(1).join(',');
    return added(text.replace(placement.line, `${placement.id}=IFCLOCALPLACEMENT(${parent},#${next + 1});`), [
      `#${next}=IFCCARTESIANPOINT((${point}));`,
      `#${next + 1}=IFCAXIS2PLACEMENT3D(#${next},${rest});`,
    ]);
  };

/** Another size for a straight rectangular duct, about the same axis. */
export const resized =
  (name: string, width: number, height: number): Edit =>
  (text) => {
    const product = productLine(text, name);
    const shape = lineOf(text, references(product.args)[2]!);
    const body = lineOf(text, references(shape.args)[0]!);
    const solid = lineOf(text, references(body.args).at(-1)!);
    const profile = lineOf(text, references(solid.args)[0]!);
    if (!profile.line.includes('IFCRECTANGLEPROFILEDEF')) throw new Error(`${name} is no rectangular extrusion`);
    const args = [...profile.args.split(',').slice(0, 3), realOf(width), realOf(height)].join(',');
    return text.replace(profile.line, `${profile.id}=IFCRECTANGLEPROFILEDEF(${args});`);
  };

export const deleted =
  (...names: readonly string[]): Edit =>
  (text) =>
    names.reduce((rest, name) => {
      const { id, line } = productLine(rest, name);
      return rest
        .replace(`${line}\n`, '')
        .replace(new RegExp(`(?<=\\()${id},|,${id}(?=[,)])`, 'g'), '')
        .replace(new RegExp(`^#\\d+=IFCREL\\w+\\(.*\\(${id}\\).*\\n`, 'gm'), '');
    }, text);

/** The same lines, last first: numbers mean nothing, and neither does order. */
export const reordered: Edit = (text) => {
  const [head, rest] = text.split('DATA;\n') as [string, string];
  const [lines, tail] = rest.split('\nENDSEC;') as [string, string];
  return `${head}DATA;\n${lines.split('\n').reverse().join('\n')}\nENDSEC;${tail}`;
};

export const together =
  (...edits: readonly Edit[]): Edit =>
  (text) =>
    edits.reduce((done, edit) => edit(done), text);

interface StepLine {
  readonly id: string;
  readonly line: string;
  readonly args: string;
}

function lineOf(text: string, id: string): StepLine {
  const match = new RegExp(`^${id}=IFC\\w+\\((.*)\\);$`, 'm').exec(text);
  if (!match) throw new Error(`the file has no line ${id}`);
  return { id, line: match[0], args: match[1]! };
}

function productLine(text: string, name: string): StepLine {
  const match = new RegExp(`^(#\\d+)=IFC\\w+\\(('.{22}',#\\d+,'${name}',.*)\\);$`, 'm').exec(text);
  if (!match) throw new Error(`the file has no product ${name}`);
  return { id: match[1]!, line: match[0], args: match[2]! };
}

const references = (args: string): string[] => args.match(/#\d+/g) ?? [];
const lastId = (text: string): number => Math.max(...[...text.matchAll(/^#(\d+)=/gm)].map(([, id]) => Number(id)));
const realOf = (value: number): string => (Number.isInteger(value) ? `${value}.` : String(value));
const added = (text: string, lines: readonly string[]): string =>
  text.replace('\nENDSEC;\nEND-ISO', `\n${lines.join('\n')}\nENDSEC;\nEND-ISO`);
