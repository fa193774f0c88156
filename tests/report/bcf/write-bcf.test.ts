import { unzipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { HORIZONTAL_VIEW } from '../../../src/draw/camera.js';
import type { Vec3 } from '../../../src/model.js';
import { type BcfFile, readBcf } from '../../../src/report/bcf/archive.js';
import { IN_SIGHT, placesOf } from '../../../src/report/bcf/look.js';
import { parse } from '../../../src/report/bcf/read-markup.js';
import { subjectOf } from '../../../src/report/bcf/topic-guid.js';
import { writeBcf } from '../../../src/report/bcf/write-bcf.js';
import { uuidOfGlobalId } from '../../../src/report/global-id.js';
import { childOf, childrenOf, textOf } from '../../../src/report/read-xml.js';
import { sceneOf } from '../../../src/scene/scene.js';
import { type Reviewed, reviewOneWall } from '../../one-wall.js';
import { faultsOf, hasStandards } from './bcf-schemas.js';

const decode = (bytes: Uint8Array | undefined) => new TextDecoder().decode(bytes);
const write = ({ report, federation }: Reviewed, options: Partial<Parameters<typeof writeBcf>[1]> = {}) =>
  writeBcf(report, { scene: sceneOf(federation), ...options });

let reviewed: Reviewed;
beforeAll(async () => {
  reviewed = await reviewOneWall();
});

describe.each(['3.0', '2.1'] as const)('BCF %s', (version) => {
  let bytes: Uint8Array;
  let file: BcfFile;
  beforeAll(() => {
    bytes = write(reviewed, { version });
    file = readBcf(bytes);
  });

  it.skipIf(!hasStandards)('is valid in every part, per finding, per penetration and as a demonstration', () => {
    expect(faultsOf(file.entries, version)).toEqual([]);
    expect(faultsOf(readBcf(write(reviewed, { version, per: 'penetration' })).entries, version)).toEqual([]);
    const demonstration = { ...reviewed, report: { ...reviewed.report, demonstration: true } };
    expect(faultsOf(readBcf(write(demonstration, { version })).entries, version)).toEqual([]);
  });

  it('is the same bytes for the same input', () => expect(write(reviewed, { version })).toEqual(bytes));

  it('has an entry for every folder, names in lower case, and the files of its version', () => {
    const names = Object.keys(unzipSync(bytes));
    const folders = names.filter((name) => name.endsWith('/'));
    expect(folders.length).toBe(file.topics.length);
    for (const { topic, folder } of file.topics) {
      expect(folder).toBe(topic.guid);
      expect(folders).toContain(`${folder}/`);
      for (const name of ['markup.bcf', 'viewpoint.bcfv', 'snapshot.png']) expect(names).toContain(`${folder}/${name}`);
    }
    expect(names).toContain('bcf.version');
    expect(names).toContain('project.bcfp');
    expect(names.includes('extensions.xml')).toBe(version === '3.0');
    expect(names.includes('extensions.xsd')).toBe(version === '2.1');
    expect(decode(file.entries.get('project.bcfp'))).toContain(
      uuidOfGlobalId(reviewed.report.models[0]!.projectGlobalId!),
    );
  });

  it('gives back the keys of all findings that failed', () => {
    const failed = reviewed.report.findings.filter((f) => f.outcome === 'failed');
    expect(failed.length).toBeGreaterThan(1);
    expect(file.topics.map(({ topic }) => subjectOf(topic.guid))).toEqual(
      failed.map(({ key }) => ({ kind: 'finding', key })),
    );
  });

  it('says what failed, by how much, what would do, and what this is not', () => {
    const { report } = reviewed;
    const finding = report.findings.find((f) => f.side === 'bottom')!;
    const [penetration] = report.penetrations;
    const topic = file.topics.map((t) => t.topic).find((t) => subjectOf(t.guid)?.key === finding.key)!;
    expect(topic).toMatchObject({
      type: 'Fire separation',
      status: 'Open',
      priority: 'Before forming opening',
      stage: 'Coordination',
      creationDate: report.createdAt,
      creationAuthor: 'Ratedrun',
    });
    expect(topic.title.startsWith(`${penetration!.tag} `)).toBe(true);
    expect(topic.labels).toEqual(expect.arrayContaining([penetration!.storey!.name, 'gap-within-range']));
    for (const text of [
      'Measured: 70 mm',
      'Allowed: 10 to 50 mm; missed by 20 mm',
      `Remedy: ${finding.remedy}`,
      ...report.cautions,
    ])
      expect(topic.description).toContain(text);
    expect(topic.files).toEqual([
      expect.objectContaining({
        ifcProject: report.models[0]!.projectGlobalId,
        filename: 'one-wall.ifc',
        // fixtures/ifc-writer.ts gives every file this time.
        date: '2026-01-01T00:00:00',
      }),
    ]);
    const others = file.topics.map((t) => t.topic.guid).filter((guid) => guid !== topic.guid);
    expect([...topic.relatedTopics].sort()).toEqual(others.sort());
  });

  it('stands in front of the penetration: metres, Z up, square axes, the angle that the version means', () => {
    const [penetration] = reviewed.report.penetrations;
    for (const { folder } of file.topics) {
      const root = parse(file.entries.get(`${folder}/viewpoint.bcfv`)!, 'viewpoint.bcfv', 'VisualizationInfo');
      const camera = childOf(root, 'PerspectiveCamera')!;
      const axes = (name: string, of = camera): Vec3 =>
        ['X', 'Y', 'Z'].map((axis) => Number(textOf(childOf(childOf(of, name), axis)))) as unknown as Vec3;
      const [eye, direction, up] = [axes('CameraViewPoint'), axes('CameraDirection'), axes('CameraUpVector')];
      const product = (a: Vec3, b: Vec3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
      expect(product(direction, direction)).toBeCloseTo(1, 5);
      expect(product(up, up)).toBeCloseTo(1, 5);
      expect(product(up, direction)).toBeCloseTo(0, 5);
      expect(up[2]).toBeGreaterThan(0.9);
      // The penetration lies within 15° of where the camera looks, 2 to 6 m away.
      const to = penetration!.position.map((v, i) => v / 1000 - eye[i]!) as unknown as Vec3;
      const away = Math.hypot(...to);
      expect(away).toBeGreaterThan(1.5);
      expect(away).toBeLessThan(6);
      expect(product(to, direction) / away).toBeGreaterThan(Math.cos((15 * Math.PI) / 180));
      const angle = Number(textOf(childOf(camera, 'FieldOfView')));
      const aspect = textOf(childOf(camera, 'AspectRatio'));
      if (version === '2.1') {
        expect([angle, aspect]).toEqual([HORIZONTAL_VIEW, null]);
      } else {
        // tan of half the vertical angle, times the aspect, is tan of half the horizontal one.
        const half = (degrees: number) => Math.tan((degrees * Math.PI) / 360);
        expect(half(angle) * Number(aspect)).toBeCloseTo(half(60), 5);
      }
      // The plane lies between camera and barrier and its direction points to the half that is not seen: the camera's.
      const plane = childOf(childOf(root, 'ClippingPlanes'), 'ClippingPlane')!;
      const [at, cut] = [axes('Location', plane), axes('Direction', plane)];
      const side = (p: readonly number[]) => product(p.map((v, i) => v - at[i]!) as unknown as Vec3, cut);
      expect(side(eye)).toBeGreaterThan(0);
      expect(side(penetration!.position.map((v) => v / 1000))).toBeLessThan(0);
    }
  });

  it('selects duct, barrier and opening, colours the duct, and shows no more than the picture', () => {
    const [penetration] = reviewed.report.penetrations;
    const { folder } = file.topics[0]!;
    const root = parse(file.entries.get(`${folder}/viewpoint.bcfv`)!, 'viewpoint.bcfv', 'VisualizationInfo');
    const components = childOf(root, 'Components');
    const ids = (parent: ReturnType<typeof childOf>) =>
      childrenOf(parent, 'Component').map((c) => c.attributes.IfcGuid);
    expect(ids(childOf(components, 'Selection'))).toEqual([
      penetration!.duct.globalId,
      penetration!.barrier.globalId,
      penetration!.opening!.globalId,
    ]);
    const visibility = childOf(components, 'Visibility')!;
    expect(visibility.attributes.DefaultVisibility).toBe('false');
    expect(ids(childOf(visibility, 'Exceptions'))).toEqual([penetration!.duct.globalId, penetration!.barrier.globalId]);
    const colour = childOf(childOf(components, 'Coloring'), 'Color')!;
    expect(colour.attributes.Color).toBe('FFB03E00');
    expect(ids(version === '3.0' ? childOf(colour, 'Components') : colour)).toEqual([penetration!.duct.globalId]);
  });
});

describe('per penetration', () => {
  it('is one topic with all that failed there', () => {
    const { report } = reviewed;
    const { topics } = readBcf(write(reviewed, { per: 'penetration' }));
    const [penetration] = report.penetrations;
    expect(topics.map(({ topic }) => subjectOf(topic.guid))).toEqual([{ kind: 'penetration', key: penetration!.key }]);
    const failed = report.findings.filter((f) => f.outcome === 'failed');
    for (const finding of failed) expect(topics[0]!.topic.description).toContain(finding.message);
    expect(topics[0]!.topic.title).toMatch(new RegExp(`^${penetration!.tag} ${failed.length} checks failed: `));
  });
});

describe('a demonstration', () => {
  it('says so in label, title, description and picture', () => {
    const demonstration = { ...reviewed, report: { ...reviewed.report, demonstration: true } };
    const [file, plain] = [readBcf(write(demonstration)), readBcf(write(reviewed))];
    for (const { topic, folder } of file.topics) {
      expect(topic.labels[0]).toBe('DEMONSTRATION DATA');
      expect(topic.title).toMatch(/^\S+ \(demonstration\) /);
      expect(topic.description).toMatch(/^DEMONSTRATION DATA: /);
      expect(file.entries.get(`${folder}/snapshot.png`)).not.toEqual(plain.entries.get(`${folder}/snapshot.png`));
    }
  });
});

describe('a finding on a barrier', () => {
  it('is looked at where it says, without the tag of what else passes there', () => {
    const { report, federation } = reviewed;
    const { model, globalId } = report.penetrations[0]!.barrier;
    const subject = { type: 'barrier', id: globalId, elements: [{ model, globalId }] } as const;
    const [finding] = report.findings.filter((f) => f.outcome === 'failed');
    const findings = [{ ...finding!, subject, side: null, at: [500, 0, 2900] as const }];
    const file = readBcf(
      writeBcf({ ...report, findings }, { scene: sceneOf(federation, placesOf({ ...report, findings }), IN_SIGHT) }),
    );
    const [{ topic, folder }] = file.topics as [BcfFile['topics'][number]];
    expect(topic.title.startsWith(report.penetrations[0]!.tag)).toBe(false);
    const root = parse(file.entries.get(`${folder}/viewpoint.bcfv`)!, 'viewpoint.bcfv', 'VisualizationInfo');
    const camera = childOf(root, 'PerspectiveCamera');
    const axes = (name: string) => ['X', 'Y', 'Z'].map((axis) => Number(textOf(childOf(childOf(camera, name), axis))));
    const [eye, direction] = [axes('CameraViewPoint'), axes('CameraDirection')];
    const to = [0.5, 0, 2.9].map((v, i) => v - eye[i]!);
    const along = to.reduce((sum, v, i) => sum + v * direction[i]!, 0);
    expect(along / Math.hypot(...to)).toBeGreaterThan(Math.cos((5 * Math.PI) / 180));
  });
});

describe('texts of models', () => {
  it('that XML forbids or that look like markup stay text', async () => {
    const { report, federation } = reviewed;
    const nasty = 'A\u0000<b>&amp;]]>\uD800 "quoted"';
    const findings = report.findings.map((f) => ({ ...f, message: nasty, remedy: nasty }));
    const bytes = writeBcf({ ...report, findings }, { scene: sceneOf(federation) });
    const file = readBcf(bytes);
    expect(file.topics[0]!.topic.title).toContain('<b>&amp;]]>\uFFFD "quoted"');
    if (hasStandards) expect(faultsOf(file.entries, '3.0')).toEqual([]);
  });
});
