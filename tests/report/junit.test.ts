/** findings.junit.xml against an expectation written by hand, and read back by another program (libxml2). */
import { XmlDocument, type XmlElement } from 'libxml2-wasm';
import { expect, it } from 'vitest';
import { writeJunit } from '../../src/report/junit.js';
import type { Report } from '../../src/report/schema.js';
import { aFinding, aPenetration, aReport, onBarrier, onPenetration } from './factories.js';

const written = (report: Report) => new TextDecoder().decode(writeJunit(report));

const REPORT = () =>
  aReport({
    revision: 'B',
    penetrations: [aPenetration(1), aPenetration(2)],
    findings: [
      aFinding('gap', {
        ...{ subject: onPenetration(1), side: 'right', measured: 140, limit: { atLeast: 10, atMost: 50 } },
        ...{ message: 'The right gap is 140 mm.', remedy: 'Move it by 90 mm.' },
      }),
      aFinding('gap', {
        subject: onPenetration(1),
        side: 'left',
        outcome: 'passed',
        message: 'The left gap is 30 mm.',
      }),
      aFinding('gap', { subject: onPenetration(2), outcome: 'passed', message: 'The gap is 30 mm.' }),
      aFinding('rating', { subject: onBarrier('wall-1'), outcome: 'cantTell', message: 'No rating is stated.' }),
      aFinding('treatment', { subject: onPenetration(2), outcome: 'inapplicable', message: 'Not a rated barrier.' }),
      aFinding('opening', { subject: onPenetration(2), outcome: 'untested', message: 'Not looked at.' }),
    ],
  });

const AT = 'KX, 600 × 400 mm, through wall W-12, Level 1, rated &quot;-/120/120&quot;';

it('is a suite for each check and a case for each thing it looked at', () => {
  expect(written(REPORT())).toBe(`<?xml version="1.0" encoding="UTF-8"?>
<testsuites name="ratedrun" tests="5" failures="1" errors="2" skipped="1">
  <testsuite name="Gap within range" id="gap" tests="2" failures="1" errors="0" skipped="0" time="0" timestamp="2026-01-02T03:04:05">
    <testcase classname="gap" name="TAG1-9 rev. B: ${AT}" time="0">
      <failure type="failed" message="The right gap is 140 mm.">The right gap is 140 mm.
Remedy: Move it by 90 mm.</failure>
    </testcase>
    <testcase classname="gap" name="TAG2-9 rev. B: ${AT}" time="0"/>
  </testsuite>
  <testsuite name="Fire rating of the barrier known" id="rating" tests="1" failures="0" errors="1" skipped="0" time="0" timestamp="2026-01-02T03:04:05">
    <testcase classname="rating" name="wall W-12, Level 1, rated &quot;-/120/120&quot;; 2 penetrations (wall-1)" time="0">
      <error type="cantTell" message="No rating is stated.">No rating is stated.</error>
    </testcase>
  </testsuite>
  <testsuite name="Damper or protection at a rated barrier" id="treatment" tests="1" failures="0" errors="0" skipped="1" time="0" timestamp="2026-01-02T03:04:05">
    <testcase classname="treatment" name="TAG2-9 rev. B: ${AT}" time="0">
      <skipped message="Not a rated barrier."/>
    </testcase>
  </testsuite>
  <testsuite name="Opening modelled" id="opening" tests="1" failures="0" errors="1" skipped="0" time="0" timestamp="2026-01-02T03:04:05">
    <testcase classname="opening" name="TAG2-9 rev. B: ${AT}" time="0">
      <error type="untested" message="Not looked at.">Not looked at.</error>
    </testcase>
  </testsuite>
</testsuites>
`);
});

it('is well formed whatever models say, and its sums are those of its cases', () => {
  const hostile = aFinding('gap', {
    subject: onPenetration(1),
    message: 'a ]]> <b> & "c" \u0000\ud800',
    remedy: '&amp;',
  });
  const document = XmlDocument.fromString(written(aReport({ findings: [...REPORT().findings.slice(1), hostile] })));
  try {
    const count = (path: string) => (document.find(path) as XmlElement[]).length;
    const [root] = document.find('/testsuites') as XmlElement[];
    for (const [name, path] of [
      ['tests', '//testcase'],
      ['failures', '//testcase/failure'],
      ['errors', '//testcase/error'],
      ['skipped', '//testcase/skipped'],
    ] as const)
      expect(root!.attr(name)?.value, name).toBe(String(count(path)));
    expect((document.find('//failure') as XmlElement[])[0]!.content).toContain('a ]]> <b> & "c"');
  } finally {
    document.dispose();
  }
});

it('stamps demonstration data', () => {
  const brief = { file: 'brief.yaml', sha256: '0', demonstration: true };
  expect(written(aReport({ brief }))).toContain('<testsuites name="ratedrun: DEMONSTRATION DATA');
});
