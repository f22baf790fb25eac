import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PacingCue, pacingCues } from '../../../analysis/plan/pacingCues.js';
import { pacingSound, waveFile } from '../../../analysis/plan/pacingSound.js';
import { parseStage } from '../../../analysis/plan/stage.js';

const RATE = 44_100;
const cuesOf = (start: 'stretched' | 'contracted', ...stages: string[]) =>
  pacingCues(stages.map(parseStage), { start, leadInSeconds: 4 });

const phases = (cues: readonly PacingCue[]) =>
  cues.filter((cue) => cue.kind === 'phase').map((cue) => [cue.seconds, cue.phase, cue.rep]);

describe('pacingCues', () => {
  it('counts in, then begins with the lift where the set starts stretched', () => {
    const cues = cuesOf('stretched', '4-0-1-1:2');
    expect(cues.filter((cue) => cue.kind === 'ready').map((cue) => cue.seconds)).toEqual([0, 1, 2, 3]);
    expect(phases(cues)).toEqual([
      [4, 'concentric', 1],
      [5, 'contracted-hold', 1],
      [6, 'eccentric', 1],
      [10, 'concentric', 2],
      [11, 'contracted-hold', 2],
      [12, 'eccentric', 2],
    ]);
    expect(cues.at(-1)).toMatchObject({ seconds: 16, kind: 'end', rep: 2 });
  });

  it('begins with the lowering where the set starts contracted, and leaves out the hold after the last move', () => {
    const cues = cuesOf('contracted', '3-1-X-2:2');
    expect(phases(cues).map(([seconds, phase]) => [seconds, phase])).toEqual([
      [4, 'eccentric'],
      [7, 'stretched-hold'],
      [8, 'concentric'],
      [9, 'contracted-hold'],
      [11, 'eccentric'],
      [14, 'stretched-hold'],
      [15, 'concentric'],
    ]);
    expect(cues.at(-1)!.seconds).toBe(16);
  });

  // Time under tension is the sum of the tempo times the reps (common practice; 3010 is 4 s a rep, 2011 too).
  it.each([
    ['3-0-1-0:10', 40],
    ['4-0-X-0:6', 30],
    ['5-_-_-0:2', 14],
    ['2.5-0-1-0:4', 14],
  ])('%s lasts %d s', (stage, seconds) => {
    expect(cuesOf('contracted', stage).at(-1)!.seconds - 4).toBeCloseTo(seconds, 9);
  });

  it('paces the most reps of a range, and numbers through the stages', () => {
    const cues = cuesOf('contracted', '2-0-1-0:2-3', '1-0-1-0:2');
    expect(Math.max(...cues.map((cue) => cue.rep))).toBe(5);
    expect(
      pacingCues([{ tempo: null, reps: null }], { start: 'contracted', leadInSeconds: 0 }).at(-1)!.seconds,
    ).toBe(4);
  });
});

describe('pacingSound', () => {
  it('begins every tone within a millisecond of its cue, to the end of a long set', () => {
    const cues = cuesOf('contracted', '3.3-0-1.7-0:40');
    const sound = pacingSound(cues, RATE);
    for (const cue of cues) {
      // Silent up to the cue, loud within a millisecond after it: found without knowing how it was made.
      const at = cue.seconds * RATE;
      const before = sound.subarray(
        Math.max(0, Math.ceil(at - 0.02 * RATE)),
        Math.max(0, Math.floor(at - 0.5)),
      );
      const after = sound.subarray(Math.round(at), Math.round(at + 0.001 * RATE));
      expect(Math.max(0, ...before.map(Math.abs))).toBeLessThan(0.12);
      expect(Math.max(...after.map(Math.abs))).toBeGreaterThan(0.2);
    }
  });

  it('never clips', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 4 }),
        (down, up, reps) => {
          const sound = pacingSound(cuesOf('stretched', `${down / 10}-0-${up / 10}-0.1:${reps}`), 8000);
          expect(sound.every((value) => Math.abs(value) <= 1.2)).toBe(true);
        },
      ),
      { numRuns: 20 },
    );
  });

  it('is empty without cues', () => {
    expect(pacingSound([], RATE)).toHaveLength(0);
  });
});

describe('waveFile', () => {
  // Fields of the canonical WAVE header (IBM and Microsoft 1991): offsets, sizes and little-endian order.
  it('has the header of the format', () => {
    const file = waveFile(new Float32Array([0, 1, -1, 2]), RATE);
    const view = new DataView(file.buffer);
    const text = (offset: number) => String.fromCharCode(...file.subarray(offset, offset + 4));
    expect([text(0), text(8), text(12), text(36)]).toEqual(['RIFF', 'WAVE', 'fmt ', 'data']);
    expect(view.getUint32(4, true)).toBe(file.length - 8);
    expect([view.getUint16(20, true), view.getUint16(22, true)]).toEqual([1, 1]);
    expect([view.getUint32(24, true), view.getUint32(28, true)]).toEqual([44_100, 88_200]);
    expect([view.getUint16(32, true), view.getUint16(34, true)]).toEqual([2, 16]);
    expect(view.getUint32(40, true)).toBe(8);
    expect([0, 1, 2, 3].map((index) => view.getInt16(44 + 2 * index, true))).toEqual([
      0, 32767, -32767, 32767,
    ]);
  });
});
