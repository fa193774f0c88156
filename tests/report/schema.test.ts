/** report.json against its JSON Schema by an outside judge (ajv), and against the field list of the contract. */
import Ajv2020 from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { describe, expect, it } from 'vitest';
import { writeJson } from '../../src/report/json.js';
import { parseReport, reportJsonSchema } from '../../src/report/schema.js';
import { NO_CHOICES } from '../model-factories.js';
import { aTakeoff } from '../quantify/made-takeoff.js';
import { aFinding, aModel, aPenetration, aReport, onPenetration } from './factories.js';

const ajv = new Ajv2020.default({ strict: true, allowUnionTypes: true, allErrors: true });
addFormats.default(ajv);
const isReport = ajv.compile(reportJsonSchema());

const DUCT = { model: 'm1', globalId: 'D1' };
const NONE = { passed: 0, failed: 0, cantTell: 0, inapplicable: 0, untested: 0 };

const full = () =>
  aReport({
    models: [
      aModel({ problems: [{ code: 'no-body', globalId: null, message: 'The file has nothing to read.' }] }),
      aModel({ id: 'm2' }),
    ],
    penetrations: [
      aPenetration(1, {
        gaps: { top: 30, bottom: 70, left: null, right: null, min: 30, max: 70, facing: { right: 'P-0002' } },
        neighbours: [{ penetration: 'P-0002', distance: 80 }],
        others: [{ model: 'm1', globalId: 'pipe-1', kind: 'pipe' }],
        treatment: {
          kind: 'blanket',
          evidence: 'brief',
          layers: 2,
          integrity: 120,
          insulation: 120,
        },
      }),
      aPenetration(2, { opening: null }),
    ],
    findings: [
      aFinding('gap', {
        subject: onPenetration(1),
        side: 'bottom',
        measured: 70,
        limit: { atLeast: 10, atMost: 50 },
        margin: -20,
        change: {
          kind: 'moveDuct',
          by: [0, 0, -20],
          elements: [DUCT],
          lengths: [{ ...DUCT, globalId: 'D2', by: -20, end: [0, 0, 9] }],
        },
        tolerance: { site: 5, measuring: 0.8 },
        concession: {
          reason: 'r',
          grantedBy: 'g',
          role: 'o',
          reference: 'x',
          date: '2026-01-01',
          expires: null,
          state: 'inForce',
          because: null,
        },
      }),
      aFinding('treatment', { outcome: 'cantTell', limit: { among: ['damper', 'blanket'] }, missing: ['treatment'] }),
    ],
    choices: {
      ...NO_CHOICES,
      concessions: [
        {
          ...{ key: 'f'.repeat(16), reason: 'r', grantedBy: 'g', role: 'o', reference: 'x', date: '2026-01-01' },
          ...{ measured: 70, limit: { atLeast: 10, atMost: 50 } },
        },
      ],
    },
    takeoff: aTakeoff(),
    assumed: {
      note: 'no review',
      choices: [{ name: 'room', before: null, value: { working: 100 } }],
      ...{ outcomes: { before: NONE, after: NONE }, penetrationOutcomes: { before: NONE, after: NONE } },
      goes: [
        {
          ...{ key: 'k', check: 'gap-within-range', subject: { type: 'penetration', id: 'P-0001' }, side: 'top' },
          ...{ outcome: 'failed', other: 'passed', message: 'm' },
        },
      ],
      comes: [],
    },
  });

const written = (report = full()): Record<string, unknown> => JSON.parse(new TextDecoder().decode(writeJson(report)));

describe('the JSON Schema of report.json', () => {
  it('is of draft 2020-12 and holds for a report with everything in it, and for an empty one', () => {
    expect(reportJsonSchema().$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(isReport(written()), ajv.errorsText(isReport.errors)).toBe(true);
    const empty = aReport({ models: [], penetrations: [], findings: [] });
    expect(isReport(written(empty)), ajv.errorsText(isReport.errors)).toBe(true);
  });

  it('bears fields that a later version adds, at every depth', () => {
    const addEverywhere = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(addEverywhere);
      if (typeof value !== 'object' || value === null) return value;
      const inner = Object.entries(value).map(([name, v]) => [name, addEverywhere(v)]);
      return { ...Object.fromEntries(inner), addedLater: 1 };
    };
    const later = addEverywhere(written());
    expect(isReport(later), ajv.errorsText(isReport.errors)).toBe(true);
    expect(parseReport(later).findings[0]).toEqual(full().findings[0]);
    expect(Object.keys(parseReport(later))).not.toContain('addedLater');
  });

  it.each([
    ['a left out field', (r: Record<string, unknown>) => delete r.takeoff],
    ['another format', (r: Record<string, unknown>) => Object.assign(r, { format: 'other' })],
    ['a time without a zone', (r: Record<string, unknown>) => Object.assign(r, { createdAt: '2026-01-02 03:04' })],
    ['no cautions', (r: Record<string, unknown>) => Object.assign(r, { cautions: [] })],
    ['text for a list', (r: Record<string, unknown>) => Object.assign(r, { penetrations: 'none' })],
  ])('refuses %s, as parseReport does', (_, spoil) => {
    const report = written();
    spoil(report);
    expect(isReport(report)).toBe(false);
    expect(() => parseReport(report)).toThrow();
  });

  it('refuses a take-off that says less than it knows, and a null where a number must be', () => {
    const spoilt = (spoil: (takeoff: Record<string, Record<string, unknown>[]>) => void): boolean => {
      const report = JSON.parse(JSON.stringify(full()));
      spoil(report.takeoff);
      return isReport(report);
    };
    expect(spoilt(() => undefined)).toBe(true);
    expect(spoilt(({ items }) => delete items![0]!.massKg)).toBe(false);
    expect(spoilt(({ items }) => Object.assign(items![0]!, { pieces: null }))).toBe(false);
    expect(spoilt(({ items }) => Object.assign(items![0]!, { areaM2: -1 }))).toBe(false);
    expect(spoilt(({ totals }) => delete totals![0]!.unknownIn)).toBe(false);
    expect(spoilt(({ materials }) => Object.assign(materials![0]!, { kind: 'glue' }))).toBe(false);
  });

  it('refuses a missing fact that is left out instead of null', () => {
    const report = JSON.parse(JSON.stringify(full()));
    delete report.penetrations[0].duct.diameter;
    expect(isReport(report)).toBe(false);
    expect(() => parseReport(report)).toThrow(/diameter/);
  });
});

describe('report.json', () => {
  /** The field names of the contract's example, in its order. Source: the contract of this project. */
  it('has every field of the contract', () => {
    const report = full();
    const [penetration] = report.penetrations;
    const [finding] = report.findings;
    const names = (object: object | null | undefined) => Object.keys(object ?? {});
    const words = (text: string) => text.split(' ');
    expect(names(report)).toEqual(
      words(
        'format version tool createdAt demonstration cautions revision brief models rules checks summary barriers compartments doors runs access proposedPanels strategy supports penetrations openings facingEnds findings concessions comments assumed issuedTags takeoff',
      ),
    );
    expect(names(report.models[0])).toEqual(
      expect.arrayContaining(words('id file schema sha256 projectGlobalId lengthUnit application counts problems')),
    );
    expect(names(report.models[0]?.counts)).toEqual(
      expect.arrayContaining(words('ducts fittings dampers barriers openings skipped unclassified')),
    );
    expect(names(report.checks[0])).toEqual(words('id title about unit stops basis outcomes'));
    expect(names(report.checks[0]?.outcomes)).toEqual(words('passed failed cantTell inapplicable untested wouldPass'));
    expect(names(report.barriers[0])).toEqual(
      expect.arrayContaining(words('model globalId name kind storey thickness leaves construction rating')),
    );
    expect(names(report.barriers[0]?.rating)).toEqual(
      words('state text loadbearing integrity insulation duration from'),
    );
    expect(names(penetration)).toEqual(
      expect.arrayContaining(
        words(
          'id key tag crossing duct elements barrier opening gaps gapsTo neighbours others skew position frame outlines storey treatment',
        ),
      ),
    );
    expect(names(penetration?.duct)).toEqual(
      expect.arrayContaining(
        words('model globalId name element shape width height diameter sectionFrom material axis run system'),
      ),
    );
    expect(names(penetration?.opening)).toEqual(words('model globalId shape width height from'));
    expect(names(penetration?.gaps)).toEqual(words('top bottom left right min max facing'));
    expect(names(penetration?.treatment)).toEqual(
      words('kind evidence layers integrity insulation chosen feasible nearest'),
    );
    expect(names(finding)).toEqual(
      words(
        'id key check outcome wouldBe subject side at measured limit margin tolerance message remedy change missing concession comments topic',
      ),
    );
  });

  it('reads back as the report it was written from', () => {
    expect(parseReport(written())).toEqual(full());
  });

  it('is the same bytes for the same input, with a line for each item of a list', () => {
    const report = full();
    const text = new TextDecoder().decode(writeJson(report));
    expect(writeJson(full())).toEqual(writeJson(full()));
    expect(text.startsWith('{\n"format": "ratedrun-report",\n"version": 1,\n')).toBe(true);
    expect(text.endsWith('\n}\n')).toBe(true);
    const lines = text.split('\n').map((line) => line.replace(/,$/, ''));
    for (const penetration of report.penetrations) expect(lines).toContain(JSON.stringify(penetration));
  });
});
