import type { FilmFacts } from './film.js';

/** A rectangle in pixels of the film as shown (upright, square pixels). */
export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PictureOptions {
  /** Size of the pictures handed out, in pixels. */
  readonly width: number;
  readonly height: number;
  readonly region?: Rectangle | undefined;
  /** ffmpeg's name of the pixel format handed on. */
  readonly pixelFormat: 'rgb24' | 'gray' | 'yuv420p';
  /** Whether this ffmpeg can map high dynamic range by `zscale` and `tonemap`. */
  readonly canMapTones: boolean;
}

/**
 * The ffmpeg filters that turn a stored picture into the one a player shows, cut to a region and scaled. Rotation is
 * done here and not by ffmpeg's own autorotation, because that one ignores mirrored pictures before version 5. The
 * picture is scaled before it is turned and before its tones are mapped: both cost by the pixel.
 */
export function pictureFilters(film: FilmFacts, options: PictureOptions): readonly string[] {
  const sideways = film.rotationDegrees % 180 !== 0;
  const width = sideways ? options.height : options.width;
  const height = sideways ? options.width : options.height;
  return [
    ...(film.interlaced === true ? ['yadif=mode=send_frame:deint=interlaced'] : []),
    ...cropFilters(film, options.region),
    `scale=w=${width}:h=${height}:flags=bilinear`,
    ...turnFilters(film),
    ...(film.highDynamicRange ? toneFilters(options.canMapTones) : []),
    'setsar=1',
    `format=pix_fmts=${options.pixelFormat}`,
  ];
}

function turnFilters(film: FilmFacts): readonly string[] {
  const turns = {
    0: [],
    90: ['transpose=dir=clock'],
    180: ['hflip', 'vflip'],
    270: ['transpose=dir=cclock'],
  };
  return [...turns[film.rotationDegrees], ...(film.flipped ? ['hflip'] : [])];
}

function cropFilters(film: FilmFacts, region: Rectangle | undefined): readonly string[] {
  if (region === undefined) return [];
  const stored = storedShare(film, region);
  const [x, y, width, height] = [stored.x, stored.y, stored.width, stored.height].map((share) =>
    share.toFixed(6),
  );
  return [`crop=w='max(1,iw*${width})':h='max(1,ih*${height})':x='iw*${x}':y='ih*${y}'`];
}

/** The region as shares (0 to 1) of the stored picture's width and height. */
function storedShare(film: FilmFacts, region: Rectangle): Rectangle {
  const left = clamp(region.x / film.width);
  const top = clamp(region.y / film.height);
  const width = clamp((region.x + region.width) / film.width) - left;
  const height = clamp((region.y + region.height) / film.height) - top;
  const x = film.flipped ? 1 - left - width : left;
  switch (film.rotationDegrees) {
    case 0:
      return { x, y: top, width, height };
    case 90:
      return { x: top, y: 1 - x - width, width: height, height: width };
    case 180:
      return { x: 1 - x - width, y: 1 - top - height, width, height };
    case 270:
      return { x: 1 - top - height, y: x, width: height, height: width };
  }
}

function clamp(share: number): number {
  return Math.min(1, Math.max(0, share));
}

/**
 * High dynamic range (HLG, PQ) to the ordinary range: to linear light with the reference white of ITU-R BT.2408
 * (203 cd/m²) as 1, BT.709 primaries, highlights rolled off, BT.709 transfer. Without these filters the picture is
 * used as it is: HLG is made to be viewable so, PQ looks flat and dark.
 */
function toneFilters(canMapTones: boolean): readonly string[] {
  if (!canMapTones) return [];
  return [
    // zscale refuses odd sizes where two pixels share one colour.
    'format=pix_fmts=yuv444p10le',
    // Some cameras write the transfer alone; without the other two zscale refuses the picture.
    'setparams=color_primaries=bt2020:colorspace=bt2020nc',
    'zscale=t=linear:npl=203',
    'format=pix_fmts=gbrpf32le',
    'zscale=p=bt709',
    'tonemap=tonemap=mobius:param=0.5:desat=0',
    'zscale=t=bt709:m=bt709:r=limited',
  ];
}
