import { describe, expect, it } from 'vitest';
import { annotatedScript, sharedSize } from '../../../../cli/views/annotated/annotatedScript.js';
import { assColour, assText, assTime, type Colour } from '../../../../cli/views/annotated/assScript.js';
import { panelPlaces } from '../../../../cli/views/annotated/panelPlaces.js';
import { LEFT_COLOUR, RIGHT_COLOUR } from '../../../../cli/views/annotated/skeletonPaths.js';
import { PLAIN_PHASE_WORDS } from '../../../../cli/views/words/phaseWords.js';
import { sampleSet } from '../page/sampleSet.js';

describe('the subtitle script', () => {
  it('writes times as hours, minutes, seconds and hundredths, rounded down', () => {
    // Format of the SSA/ASS specification ("0:00:00:00", hundredths), from memory.
    expect(assTime(0)).toBe('0:00:00.00');
    expect(assTime(3725.678)).toBe('1:02:05.67');
    expect(assTime(0.0667)).toBe('0:00:00.06');
    expect(assTime(0.07)).toBe('0:00:00.07');
  });

  it('writes colours blue first', () => {
    expect(assColour([255, 128, 0])).toBe('&H0080FF&');
  });

  it('lets no text begin a tag or a line', () => {
    expect(assText('{\\an8}row\\Nand\nmore')).not.toMatch(/[{}\\\n]/);
  });

  const { analysis, track } = sampleSet({ framesPerSecond: 10 });
  const size = { width: 480, height: 640 };
  const script = annotatedScript(analysis.report, track, size, PLAIN_PHASE_WORDS, 1);
  const events = script.split('\n').filter((line) => line.startsWith('Dialogue:'));

  it('keeps every event to one line of ten fields', () => {
    for (const event of events) expect(event.split(',').length).toBeGreaterThanOrEqual(10);
    const [from, to] = ['Dialogue: 0,0:00:00.00,0:00:00.10', 'Dialogue: 0,0:00:00.10,0:00:00.20'];
    expect(events.some((event) => event.startsWith(from))).toBe(true);
    expect(events.some((event) => event.startsWith(to))).toBe(true);
  });

  it('tells rep, running seconds, plan and verdict', () => {
    const text = events.join('\n');
    expect(text).toContain('Left, rep 1');
    expect(text).toContain('lowering 2.0');
    expect(text).toContain('of 4 s');
    expect(text).toMatch(/lowering \d\.\d s: short/);
  });

  it('shows each running second at its time of the film, also in slow motion', () => {
    const phase = analysis.report.bouts[0]!.reps[0]!.phases.find(({ kind }) => kind === 'eccentric')!;
    for (const factor of [1, 4]) {
      const slow = annotatedScript(analysis.report, track, size, PLAIN_PHASE_WORDS, factor);
      const line = slow.split('\n').find((event) => event.includes('}lowering 2.0'))!;
      expect(line.split(',')[1]).toBe(assTime((phase.startSeconds + 2) * factor));
    }
  });
});

describe('the size of an annotated film', () => {
  it('is even, at most 1280 pixels, and keeps the shape', () => {
    for (const [width, height] of [
      [1080, 1920],
      [3840, 2160],
      [360, 480],
      [176, 144],
      [401, 533],
    ] as const) {
      const size = sharedSize({ width, height });
      expect(size.width % 2).toBe(0);
      expect(size.height % 2).toBe(0);
      expect(Math.max(size.width, size.height)).toBeLessThanOrEqual(1280);
      expect(size.width / size.height).toBeCloseTo(width / height, 1);
    }
  });
});

describe('the figure over a mirror image', () => {
  it('has the colours of the lifter’s own sides', () => {
    const { analysis, track } = sampleSet({ framesPerSecond: 5 });
    const scriptOf = (mirrored: boolean) => {
      // Seen from the front, where no limb is hidden.
      const bouts = analysis.report.bouts.map((bout) => ({
        ...bout,
        view: { ...bout.view, facing: 'front' as const },
      }));
      const report = { ...analysis.report, bouts, film: { ...analysis.report.film, mirrored } };
      return annotatedScript(report, track, { width: 480, height: 640 }, PLAIN_PHASE_WORDS, 1);
    };
    const pathsOf = (script: string, colour: Colour) =>
      script
        .split('\n')
        .filter((line) => /^Dialogue: [0-3],/.test(line) && line.includes(`\\1c${assColour(colour)}`))
        .map((line) => line.split('\\p1}')[1]);
    expect(pathsOf(scriptOf(true), LEFT_COLOUR)).toEqual(pathsOf(scriptOf(false), RIGHT_COLOUR));
    expect(pathsOf(scriptOf(true), LEFT_COLOUR)).not.toEqual(pathsOf(scriptOf(false), LEFT_COLOUR));
  });
});

describe('the panel', () => {
  it('of each side stands beside that of the other in alternating work', () => {
    const { analysis } = sampleSet();
    const [left, right] = analysis.report.bouts;
    const alternating = [
      left!,
      { ...right!, startSeconds: left!.startSeconds + 2, endSeconds: left!.endSeconds },
    ];
    const size = { width: 480, height: 640 };
    const [first, second] = panelPlaces(size, alternating, 26);
    expect(first!.right).toBeLessThan(second!.left);
    expect(second!.right).toBeLessThan(size.width);
    expect(first!.fontSize).toBe(second!.fontSize);
    const [alone] = panelPlaces(size, [left!], 26);
    expect(alone!.right).toBeGreaterThan(size.width / 2);
  });

  it('of one bout is gone before that of the next appears', () => {
    const { analysis, track } = sampleSet({ framesPerSecond: 5 });
    const [left, right] = analysis.report.bouts;
    const shift = right!.startSeconds - left!.endSeconds - 0.4;
    const moved = JSON.parse(JSON.stringify(right), (key, value) =>
      key === 'startSeconds' || key === 'endSeconds' ? value - shift : value,
    ) as typeof right;
    const report = { ...analysis.report, bouts: [left!, moved!] };
    const script = annotatedScript(report, track, { width: 480, height: 640 }, PLAIN_PHASE_WORDS, 1);
    const nextStart = assTime(moved!.startSeconds);
    const early = script
      .split('\n')
      .filter((line) => /^Dialogue: 1\d,/.test(line))
      .map((line) => line.split(','))
      .filter((fields) => fields[1]! < nextStart && fields[2]! > nextStart);
    expect(early).toEqual([]);
  });
});
