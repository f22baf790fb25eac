import picocolors from 'picocolors';
import { describe, expect, it } from 'vitest';
import { setReportSchema } from '../../../../analysis/report/setReport.js';
import { setScreen } from '../../../../cli/views/terminal/setScreen.js';
import { PLAIN_STYLE } from '../../../../cli/views/terminal/style.js';
import { ROW_REPORT, UNUSABLE_REPORT, WIDE_REPORT } from '../sampleReports.js';

const ROW_WORDS = {
  eccentric: 'lowering',
  concentric: 'pull',
  stretchedHold: 'pause',
  contractedHold: 'squeeze',
} as const;

function longestLine(text: string): number {
  return Math.max(...text.split('\n').map((line) => [...line].length));
}

describe('setScreen', () => {
  it('is given reports that the schema accepts', () => {
    for (const report of [ROW_REPORT, WIDE_REPORT, UNUSABLE_REPORT]) {
      expect(setReportSchema.safeParse(report).error).toBeUndefined();
    }
  });

  it('answers in the first line', () => {
    expect(setScreen(ROW_REPORT, ROW_WORDS, PLAIN_STYLE).split('\n')[0]).toMatch(/^Left delivered 18 of 20/);
  });

  it('says the plan back in the words of the exercise', () => {
    expect(setScreen(ROW_REPORT, ROW_WORDS, PLAIN_STYLE)).toContain(
      'Plan: lower for 4 s, no pause, pull in 1 s, squeeze for 1 s, 5 to 6 reps.',
    );
  });

  it('gives every phase its seconds, its ± and its verdict in symbol and word', () => {
    const screen = setScreen(ROW_REPORT, ROW_WORDS, PLAIN_STYLE);
    expect(screen).toMatch(/^5 +2\.8 ±0\.1 ▼ short +1\.1 ±0\.1 ✓ +0\.4 ±0\.1 ▼ short +79° ±4 ▼ 86 %$/m);
    expect(screen).toMatch(/^6 partial +1\.9 ±0\.1 ▼ short/m);
    expect(screen).toContain('✓ met, ▼ short, ▲ long, ? unclear');
  });

  it.each([
    ['rows', ROW_REPORT],
    ['two stages with every verdict unclear and times beyond ten seconds', WIDE_REPORT],
    ['a film that can not answer', UNUSABLE_REPORT],
  ])('fits eighty columns: %s', (_name, report) => {
    expect(longestLine(setScreen(report, null, PLAIN_STYLE))).toBeLessThanOrEqual(80);
  });

  it('puts the plan of each stage above its reps', () => {
    const screen = setScreen(WIDE_REPORT, null, PLAIN_STYLE);
    expect(screen).toMatch(
      /plan +12 s +1 s +1 s +2 s\n1 +11\.3.*\n2 +11\.3.*\nplan +1 s +none +fast +·\n3 +11\.3/,
    );
  });

  it('shows rests, sides and what to film better', () => {
    const screen = setScreen(ROW_REPORT, ROW_WORDS, PLAIN_STYLE);
    expect(screen).toContain('Change of side 12.2 s (0:33 to 0:45).');
    expect(screen).toMatch(/Range +91° +95° +−3° +−9 to \+3 +no difference seen/);
    expect(screen).toMatch(/Lowering +3\.70 s +4\.10 s +−0\.42 s +−0\.80 to −0\.05 +≠ different/);
    expect(screen.indexOf('Mind:')).toBeLessThan(screen.indexOf('Note:'));
    expect(screen).toContain('  → Put the phone level with the hip, square to the side.');
    expect(setScreen(WIDE_REPORT, null, PLAIN_STYLE)).toContain('Rest 75.0 s (2:00 to 3:15), planned 90 s.');
  });

  it('calls the phases of both sides what the reps’ table calls them', () => {
    const words = { ...ROW_WORDS, eccentric: 'straightening', concentric: 'bending' } as const;
    const screen = setScreen(ROW_REPORT, words, PLAIN_STYLE);
    expect(screen).toMatch(/^Rep .*Straightening.*Bending/m);
    expect(screen).toMatch(/^Straightening +3\.70 s/m);
    expect(screen).not.toMatch(/^(Lowering|Lift) /m);
  });

  it('ends with the caution', () => {
    expect(setScreen(ROW_REPORT, ROW_WORDS, PLAIN_STYLE).trimEnd().split('\n\n').at(-1)).toMatch(
      /means stop/,
    );
  });

  it('loses nothing but colour without colour', () => {
    const colored = setScreen(ROW_REPORT, ROW_WORDS, { width: 80, colors: picocolors.createColors(true) });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colour codes begin with the escape character
    const stripped = colored.replace(/\u001b\[[0-9;]*m/g, '');
    expect(colored).not.toBe(stripped);
    expect(stripped).toBe(setScreen(ROW_REPORT, ROW_WORDS, PLAIN_STYLE));
  });

  it('judges nothing without a plan', () => {
    const unplanned = setScreen({ ...ROW_REPORT, plan: null }, ROW_WORDS, PLAIN_STYLE);
    expect(unplanned).toContain('No plan was given: times are shown, not judged.');
  });
});
