/** Facts of one film, as a player would show it. All times are container times in seconds. */
export interface FilmFacts {
  /** The path as the user gave it. */
  readonly file: string;
  /** When the film was recorded (ISO 8601), or null where the film does not say. */
  readonly recordedAt: string | null;
  readonly durationSeconds: number;
  /** Width and height in pixels as shown: upright, with square pixels. */
  readonly width: number;
  readonly height: number;
  /** Average frames a second. */
  readonly frameRate: number;
  readonly variableFrameRate: boolean;
  /** How many times too slowly the film is stored: film time divided by this is real time. 1 for ordinary films. */
  readonly slowMotionFactor: number;
  /** True where the film's own tags leave open whether it is slightly slow motion; it is taken for real time. */
  readonly slowMotionDoubtful?: boolean;
  /** Clockwise turn a player applies to show the stored picture upright. */
  readonly rotationDegrees: 0 | 90 | 180 | 270;
  /** True when the stored picture is flipped by its own display matrix (undone while decoding). */
  readonly flipped: boolean;
  /** True when the picture is stored with a high-dynamic-range transfer (HLG or PQ). */
  readonly highDynamicRange: boolean;
  readonly codec: string;
  /** True when stored pictures are, or may be, two interleaved fields (undone while decoding). */
  readonly interlaced?: boolean;
  /** The container's family in ffmpeg's words, for example `mov,mp4,m4a,3gp,3g2,mj2`. */
  readonly container?: string;
  /**
   * Seconds that a player takes off the times stored in the container. Broadcast streams (MPEG-TS, MPEG-PS) start at
   * an arbitrary time and players count from their first moment; everywhere else this is 0.
   */
  readonly clockOffsetSeconds?: number;
  /**
   * When the first stored picture would be shown: below zero where the film's edit list hides what was recorded before
   * its start. 0 where the container does not say.
   */
  readonly firstStoredSeconds?: number;
}

/** One decoded picture. */
export interface TimedFrame {
  /** Presentation time in the container, seconds. */
  readonly seconds: number;
  readonly width: number;
  readonly height: number;
  /** Red, green, blue, one byte each, row by row from the top left. Valid until the next frame is asked for. */
  readonly pixels: Uint8Array;
}
