import { z } from 'zod';
import { type KeptFile, openKeptFiles } from '../keptFiles.js';
import type { FilmFacts } from './film.js';
import { CACHE_SAMPLE_BYTES, hashFilm } from './hashFilm.js';

/** Facts of films kept in a folder, so that a film that was read once needs no ffmpeg to be scored again. */
export interface FactsCache {
  /** The facts kept under a key, for the film of this name; null where there are none, or they are damaged. */
  read(key: string, file: string): Promise<FilmFacts | null>;
  /** Keeps the facts, and drops those unused for longest where there are too many. */
  write(key: string, facts: FilmFacts): Promise<void>;
  /** What is kept, the most recently used first. */
  list(): Promise<readonly KeptFile[]>;
  /** Drops everything. @returns of how many films there were facts. */
  clear(): Promise<number>;
}

/** Counted up whenever the same film would give other facts. */
const FACTS_VERSION = 2;
const ENDING = '.film-facts';
/** About two thousand films. */
const DEFAULT_MAXIMUM_BYTES = 1024 * 1024;

/** Everything but the name, which may be another one next time. */
const factsSchema = z.strictObject({
  recordedAt: z.string().nullable(),
  durationSeconds: z.number().nonnegative(),
  width: z.int().nonnegative(),
  height: z.int().nonnegative(),
  frameRate: z.number().nonnegative(),
  variableFrameRate: z.boolean(),
  slowMotionFactor: z.number().positive(),
  slowMotionDoubtful: z.boolean(),
  rotationDegrees: z.literal([0, 90, 180, 270]),
  flipped: z.boolean(),
  highDynamicRange: z.boolean(),
  codec: z.string(),
  interlaced: z.boolean(),
  container: z.string(),
  clockOffsetSeconds: z.number(),
  firstStoredSeconds: z.number(),
}) satisfies z.ZodType<Omit<FilmFacts, 'file'>>;

/**
 * A name for the facts of a film: the same whatever the film is called, another one when it changes. Goes by its size
 * and its first, middle and last megabyte, as the key of a pose track does.
 *
 * @returns 64 hexadecimal digits.
 * @throws the file system's own error where the film can't be read.
 */
export async function factsKey(file: string): Promise<string> {
  const hash = await hashFilm(file, CACHE_SAMPLE_BYTES);
  return hash.update(JSON.stringify({ FACTS_VERSION })).digest('hex');
}

/** Opens the cache in a folder, which is made when the first facts are written. */
export function openFactsCache(folder: string, maximumBytes: number = DEFAULT_MAXIMUM_BYTES): FactsCache {
  const files = openKeptFiles(folder, ENDING, maximumBytes);
  return {
    read: (key, file) =>
      files.read(key, (content) => ({ file, ...factsSchema.parse(JSON.parse(content.toString())) })),
    async write(key, { file: _, ...facts }) {
      await files.write(key, JSON.stringify(facts));
    },
    list: files.list,
    clear: files.clear,
  };
}
