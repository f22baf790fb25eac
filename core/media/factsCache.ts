import { type KeptFile, openKeptFiles } from '../keptFiles.js';
import {
  type Checks,
  hasShape,
  isCount,
  isFlag,
  isFromZero,
  isNumber,
  isPositive,
  isText,
  oneOf,
  orNull,
} from '../shape.js';
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
const FACTS_VERSION = 1;
const ENDING = '.film-facts';
/** About two thousand films. */
const DEFAULT_MAXIMUM_BYTES = 1024 * 1024;

/** Everything but the name, which may be another one next time. */
type KeptFacts = Omit<Required<FilmFacts>, 'file'>;

const CHECKS: Checks<KeptFacts> = {
  recordedAt: orNull(isText),
  durationSeconds: isFromZero,
  width: isCount,
  height: isCount,
  frameRate: isFromZero,
  variableFrameRate: isFlag,
  slowMotionFactor: isPositive,
  slowMotionDoubtful: isFlag,
  rotationDegrees: oneOf(0, 90, 180, 270),
  flipped: isFlag,
  highDynamicRange: isFlag,
  codec: isText,
  interlaced: isFlag,
  container: isText,
  clockOffsetSeconds: isNumber,
};

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
    read: (key, file) => files.read(key, (content) => ({ file, ...decodeFacts(content) })),
    async write(key, { file: _, ...facts }) {
      await files.write(key, JSON.stringify(facts));
    },
    list: files.list,
    clear: files.clear,
  };
}

function decodeFacts(content: Buffer): KeptFacts {
  const facts: unknown = JSON.parse(content.toString());
  if (!hasShape(facts, CHECKS)) throw new Error('these are no facts of a film');
  return facts;
}
