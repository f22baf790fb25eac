import { type KeptFile, openKeptFiles } from '../keptFiles.js';
import type { PoseTrack } from './track.js';
import { decodeTrack, encodeTrack } from './trackFile.js';

/** Pose tracks kept in a folder, so that a film measured once is scored again at once. */
export interface TrackCache {
  /** The track kept under a key, or null; a damaged file counts as absent. */
  read(key: string): Promise<PoseTrack | null>;
  /** Keeps a track, and drops those unused for longest where the folder grows too large. */
  write(key: string, track: PoseTrack): Promise<void>;
  /** What is kept, the most recently used first. */
  list(): Promise<readonly KeptFile[]>;
  /** Drops everything. @returns how many tracks there were. */
  clear(): Promise<number>;
}

const ENDING = '.pose-track';
const DEFAULT_MAXIMUM_BYTES = 256 * 1024 * 1024;

/** Opens the cache in a folder, which is made when the first track is written. */
export function openTrackCache(folder: string, maximumBytes: number = DEFAULT_MAXIMUM_BYTES): TrackCache {
  const files = openKeptFiles(folder, ENDING, maximumBytes);
  return {
    read: (key) => files.read(key, decodeTrack),
    write: (key, track) => files.write(key, encodeTrack(track)),
    list: files.list,
    clear: files.clear,
  };
}
