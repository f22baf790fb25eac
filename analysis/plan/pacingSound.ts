import type { PhaseKind } from '../segmentation/bout.js';
import type { PacingCue } from './pacingCues.js';

interface Tone {
  readonly hertz: number;
  readonly seconds: number;
  /** 0 to 1. */
  readonly loudness: number;
}

/** Lower for the way down, higher for the way up, so that the ear knows the phase without counting. */
const PHASE_TONES: Record<PhaseKind, Tone> = {
  eccentric: { hertz: 440, seconds: 0.16, loudness: 0.8 },
  'stretched-hold': { hertz: 330, seconds: 0.16, loudness: 0.6 },
  concentric: { hertz: 880, seconds: 0.16, loudness: 0.8 },
  'contracted-hold': { hertz: 1175, seconds: 0.16, loudness: 0.6 },
};
const READY_TONE: Tone = { hertz: 660, seconds: 0.08, loudness: 0.5 };
const COUNT_TONE: Tone = { hertz: 1500, seconds: 0.03, loudness: 0.3 };
const END_TONE: Tone = { hertz: 523, seconds: 0.7, loudness: 0.8 };

/** Short enough to place an onset within a millisecond, long enough not to crackle. */
const ATTACK_SECONDS = 0.0005;

/**
 * The sound of a pacing track, one channel, values from -1 to 1. A cue at `t` seconds begins at sample
 * `round(t * sampleRate)`, so no onset is off by more than half a sample, however long the track.
 *
 * @param cues in order of time.
 * @param sampleRate in samples a second.
 */
export function pacingSound(cues: readonly PacingCue[], sampleRate: number): Float32Array {
  const last = cues.at(-1);
  if (last === undefined) return new Float32Array(0);
  const sound = new Float32Array(Math.ceil((last.seconds + toneOf(last).seconds) * sampleRate));
  for (const cue of cues) addTone(sound, toneOf(cue), Math.round(cue.seconds * sampleRate), sampleRate);
  return sound;
}

/**
 * A sound as a WAVE file: RIFF, linear PCM, 16 bit, one channel, little-endian.
 *
 * Source: Multimedia Programming Interface and Data Specifications 1.0, IBM and Microsoft 1991.
 */
export function waveFile(sound: Float32Array, sampleRate: number): Uint8Array {
  const bytesPerSample = 2;
  const dataBytes = sound.length * bytesPerSample;
  const view = new DataView(new ArrayBuffer(44 + dataBytes));
  writeText(view, 0, 'RIFF');
  view.setUint32(4, 36 + dataBytes, true);
  writeText(view, 8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * bytesPerSample, true);
  view.setUint16(32, bytesPerSample, true);
  view.setUint16(34, 8 * bytesPerSample, true);
  writeText(view, 36, 'data');
  view.setUint32(40, dataBytes, true);
  for (const [index, value] of sound.entries()) {
    const clipped = Math.max(-1, Math.min(1, value));
    view.setInt16(44 + index * bytesPerSample, Math.round(clipped * 32767), true);
  }
  return new Uint8Array(view.buffer);
}

function toneOf(cue: PacingCue): Tone {
  switch (cue.kind) {
    case 'ready':
      return READY_TONE;
    case 'count':
      return COUNT_TONE;
    case 'end':
      return END_TONE;
    case 'phase':
      return PHASE_TONES[cue.phase!];
  }
}

function addTone(sound: Float32Array, tone: Tone, start: number, sampleRate: number): void {
  const length = Math.min(Math.round(tone.seconds * sampleRate), sound.length - start);
  for (let index = 0; index < length; index++) {
    const seconds = index / sampleRate;
    const rise = Math.min(1, seconds / ATTACK_SECONDS);
    const fade = 1 - index / length;
    // A cosine, so that the tone is loud from its very first sample on.
    sound[start + index]! += tone.loudness * rise * fade * Math.cos(2 * Math.PI * tone.hertz * seconds);
  }
}

function writeText(view: DataView, offset: number, text: string): void {
  for (let index = 0; index < text.length; index++) view.setUint8(offset + index, text.charCodeAt(index));
}
