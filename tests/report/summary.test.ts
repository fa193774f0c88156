import { describe, expect, it } from 'vitest';
import { writeSummary } from '../../src/report/summary.js';
import { wrap } from '../../src/words/text.js';
import {
  aBarrier,
  aDuct,
  aFinding,
  aModel,
  aPenetration,
  aReport,
  onBarrier,
  onPenetration,
  unreadable,
  unstated,
} from './factories.js';

const FILES = ['out/report.json', 'out/register.xlsx'];
const text = (...lines: string[]) => `${lines.join('\n')}\n`;
const CAUTION = [
  "A review of models, not a certification: the tested system's own documents, local codes and",
  'licensed practitioners decide.',
];

describe('the summary', () => {
  it('gives counts, then what failed, then what can not be told, then where it is', () => {
    const cafe = aBarrier({ globalId: 'wall-2', name: 'Café wall', rating: unstated });
    const store = aBarrier({ globalId: 'wall-3', name: 'Store wall', rating: unreadable });
    const slab = aBarrier({ globalId: 'slab-1', name: 'Slab', kind: 'floor', rating: unstated, storey: null });
    const report = aReport({
      models: [
        aModel({
          counts: { ...aModel().counts, skipped: 2, unclassified: 1 },
          problems: [
            { code: 'unclassified-flow-element', globalId: 'u', message: 'Nothing shows what "U" is.' },
            { code: 'no-body', globalId: 'x', message: 'Wall "X" was not read: it has no Body representation.' },
          ],
        }),
        aModel({ id: 'm2', file: 'architecture.ifc' }),
      ],
      penetrations: [
        aPenetration(1),
        aPenetration(2, { barrier: cafe, duct: aDuct({ globalId: 'duct-2', shape: 'circular', diameter: 315 }) }),
        aPenetration(3, { barrier: cafe }),
        aPenetration(4, { barrier: store }),
        aPenetration(5, { barrier: slab, crossing: 'partial' }),
      ],
      findings: [
        aFinding('gap', {
          subject: onPenetration(1),
          side: 'bottom',
          message: 'The bottom gap is 70 mm, allowed 10 to 50 mm: off by 20 mm.',
          remedy: 'Move the duct down by 20 mm.',
        }),
        aFinding('opening', { subject: onPenetration(2), message: 'No opening is modelled.' }),
        aFinding('gap', {
          subject: onPenetration(1),
          side: 'left',
          message: 'The left gap is 60 mm, allowed 10 to 50 mm: off by 10 mm.',
          concession: {
            reason: 'agreed on site',
            grantedBy: 'A. Person',
            role: 'fire engineer',
            reference: 'C-1',
            date: '2026-01-01',
            expires: null,
            state: 'inForce',
            because: null,
          },
        }),
        ...['wall-2', 'slab-1'].map((id) =>
          aFinding('rating', {
            outcome: 'cantTell',
            subject: onBarrier(id),
            missing: ['barrier.rating'],
            remedy: 'State FireRating.',
          }),
        ),
        aFinding('rating', { outcome: 'cantTell', subject: onBarrier('wall-3'), missing: ['barrier.rating'] }),
        ...[1, 2].map((n) =>
          aFinding('treatment', {
            outcome: 'cantTell',
            subject: onPenetration(n),
            missing: ['penetration.treatment.kind'],
          }),
        ),
        aFinding('treatment', {
          outcome: 'cantTell',
          subject: { type: 'model', id: 'federation', elements: [] },
          message: 'Two duct ends face each other.',
        }),
      ],
      unlisted: [aFinding('gap', { outcome: 'cantTell', wouldBe: 'passed', subject: onPenetration(3) })],
    });
    expect(writeSummary(report, { files: FILES })).toBe(
      text(
        "5 penetrations (1 leaving by another face): 2 failed, 3 can't tell. 2 elements not read, 1 not",
        'classified.',
        'Results of all checks: 3 failed, 7 could not be told, 0 passed. Of those that could not be told,',
        '1 meets a limit that proves nothing: counted, not listed.',
        '',
        'Failed',
        '  TAG1-9  KX, 600 × 400 mm, through wall W-12, Level 1, rated "-/120/120"',
        '    The bottom gap is 70 mm, allowed 10 to 50 mm: off by 20 mm.',
        '    Remedy: Move the duct down by 20 mm.',
        '    The left gap is 60 mm, allowed 10 to 50 mm: off by 10 mm.',
        '    Concession by A. Person (fire engineer), C-1, 2026-01-01: agreed on site',
        '  TAG2-9  KX, Ø 315 mm, through wall Café wall, Level 1, no rating stated',
        '    No opening is modelled.',
        '',
        "Can't tell",
        '  - Rating missing on 1 wall and 1 floor (Café wall, Slab): 3 penetrations wait.',
        '    State FireRating.',
        '  - Whether it is a damper or which protection is not known: 2 penetrations (TAG1-9, TAG2-9).',
        '  - Rating unreadable on 1 wall (Store wall "FR 1hr (TBC)"): 1 penetration waits.',
        '  - Damper or protection at a rated barrier: Two duct ends face each other.',
        '  - 2 elements not read, so not checked. First: Wall "X" was not read: it has no Body',
        '    representation.',
        '  - 1 element not classified, so not checked. Nothing shows what "U" is.',
        '',
        'Written',
        '  out/report.json',
        '  out/register.xlsx',
        '',
        ...CAUTION,
      ),
    );
  });

  it('says so when no check failed, and never that all is well', () => {
    const report = aReport({
      findings: [aFinding('treatment', { outcome: 'cantTell', subject: onPenetration(1), missing: ['duct.material'] })],
    });
    const summary = writeSummary(report, { files: ['report.json'] });
    expect(summary).toBe(
      text(
        "1 penetration: 0 failed, 1 can't tell. 0 elements not read.",
        'No check failed. 1 could not be told.',
        '',
        "Can't tell",
        '  - Material of the duct is not known: 1 penetration (TAG1-9).',
        '',
        'Written',
        '  report.json',
        '',
        ...CAUTION,
      ),
    );
  });

  it('is honest about nothing at all', () => {
    expect(writeSummary(aReport({ penetrations: [] }), { files: [] })).toBe(
      text(
        "0 penetrations: 0 failed, 0 can't tell. 0 elements not read.",
        'No check failed. 0 could not be told.',
        '',
        ...CAUTION,
      ),
    );
  });

  it('counts what passed and what does not apply', () => {
    const report = aReport({
      penetrations: [1, 2, 3].map((n) => aPenetration(n)),
      unlisted: [
        aFinding('gap', { outcome: 'passed', subject: onPenetration(1) }),
        aFinding('gap', { outcome: 'inapplicable', subject: onPenetration(2) }),
      ],
    });
    expect(writeSummary(report, { files: [] }).split('\n').slice(0, 2)).toEqual([
      "3 penetrations: 0 failed, 0 can't tell, 1 passed, 1 inapplicable, 1 untested. 0 elements not",
      'read.',
    ]);
  });

  it('lists twelve findings that failed and says where the others are', () => {
    const many = Array.from({ length: 15 }, (_, i) =>
      aFinding('gap', { subject: onPenetration(1), message: `Message ${i + 1}.` }),
    );
    const withRegister = writeSummary(aReport({ findings: many }), { files: FILES });
    expect(withRegister).toContain('Message 12.\n  and 3 more in register.xlsx\n');
    expect(withRegister).not.toContain('Message 13.');
    const without = writeSummary(aReport({ findings: many }), { files: ['C:\\out\\report.json'] });
    expect(without).toContain('  and 3 more in report.json\n');
  });

  it('tells places that are no penetration by what they are', () => {
    const report = aReport({
      findings: [
        aFinding('rating', { subject: onBarrier('wall-1'), message: 'M1.' }),
        aFinding('rating', { subject: { type: 'model', id: 'federation', elements: [] }, message: 'M2.' }),
        aFinding('gap', {
          subject: { type: 'opening', id: 'opening-1', elements: [{ model: 'm2', globalId: 'opening-1' }] },
          message: 'M3.',
        }),
        aFinding('gap', { subject: { type: 'run', id: 'R-001', elements: [] }, message: 'M4.' }),
      ],
    });
    expect(writeSummary(report, { files: [] })).toContain(
      text(
        'Failed',
        '  wall W-12, Level 1, rated "-/120/120"; 1 penetration',
        '    M1.',
        '  The models together',
        '    M2.',
        '  Opening opening-1 at TAG1-9',
        '    M3.',
        '  Run R-001',
        '    M4.',
      ),
    );
  });

  it('names the ways in which a rating can be missing apart', () => {
    const duration = { ...unstated, state: 'durationOnly', text: '1 HR', duration: 60 } as const;
    const open = { ...unstated, state: 'stated', text: 'E 60', integrity: 60 } as const;
    const walls = [duration, open].map((rating, i) => aBarrier({ globalId: `wall-${i}`, name: `W${i}`, rating }));
    const report = aReport({
      penetrations: walls.map((barrier, i) => aPenetration(i + 1, { barrier })),
      findings: [1, 2].map((n) =>
        aFinding('treatment', {
          outcome: 'cantTell',
          subject: onPenetration(n),
          missing: ['barrier.rating.insulation', 'penetration.damper.purpose'],
        }),
      ),
    });
    expect(writeSummary(report, { files: [] })).toContain(
      text(
        "Can't tell",
        '  - What the damper is for is not known: 2 penetrations (TAG1-9, TAG2-9).',
        '  - Rating states a duration without criteria on 1 wall (W0): 1 penetration waits.',
        '  - Rating leaves a criterion open on 1 wall (W1): 1 penetration waits.',
      ),
    );
  });

  it('is stamped in a demonstration', () => {
    const brief = { file: 'b.yaml', sha256: 'c'.repeat(64), demonstration: true };
    expect(writeSummary(aReport({ brief }), { files: [] })).toMatch(/^DEMONSTRATION DATA: /);
    expect(writeSummary(aReport(), { files: [] })).not.toMatch(/DEMONSTRATION/);
  });

  it('keeps to the width, but for a path that can not be broken', () => {
    const long = 'word '.repeat(60).trim();
    const report = aReport({
      findings: [
        aFinding('gap', { subject: onPenetration(1), message: long, remedy: long }),
        aFinding('treatment', { outcome: 'cantTell', subject: onPenetration(1), missing: ['treatment'], remedy: long }),
      ],
    });
    const path = `/a/${'b'.repeat(120)}/report.json`;
    for (const width of [80, 100]) {
      const lines = writeSummary(report, { files: [path], width }).split('\n');
      expect(lines.filter((line) => line.length > width)).toEqual([`  ${path}`]);
    }
  });

  it('prints no control characters from a model, and shortens endless names', () => {
    const barrier = aBarrier({ name: `\u001b[31mred\u001b[0m\nsecond\u202e ${'x'.repeat(200)}` });
    const summary = writeSummary(
      aReport({
        penetrations: [aPenetration(1, { barrier })],
        findings: [aFinding('gap', { subject: onPenetration(1), message: 'a\u0007\u009bb\nc' })],
      }),
      { files: [] },
    );
    expect(summary).toContain('    a b c\n');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be printed
    expect(summary.replaceAll('\n', '')).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202e]/);
    expect(summary).toMatch(/wall \[31mred \[0m second x+…, Level/);
  });
});

describe('wrapping', () => {
  it.each([
    ['a b c', 3, '', ['a b', 'c']],
    ['a b c', 5, '- ', ['- a b', '  c']],
    ['longer than all', 4, '', ['longer', 'than', 'all']],
    ['', 10, '- ', ['- ']],
  ])('%j at %i after %j gives %j', (words, width, first, lines) => {
    expect(wrap(words, width, first)).toEqual(lines);
  });
});
