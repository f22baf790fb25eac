/// <reference lib="dom" />
import type { PackedFigure } from '../../figure/packFigure.js';

/** Runs in the page, by itself: draws the stick figure of the current time over the film, or alone. */
export function drawFigure(): void {
  const element = document.getElementById('figure-data');
  const canvas = document.querySelector<HTMLCanvasElement>('canvas.figure');
  if (element === null || canvas === null) return;
  const stage = canvas.parentElement!;
  const toggle = document.getElementById('player-figure') as HTMLInputElement | null;
  const figure = JSON.parse(element.textContent!) as PackedFigure;
  const words = (text: string) => {
    const bytes = atob(text);
    return Uint16Array.from(
      { length: bytes.length / 2 },
      (_, index) => bytes.charCodeAt(index * 2) | (bytes.charCodeAt(index * 2 + 1) << 8),
    );
  };
  const NOT_SEEN = 0xffff;
  const STEPS = 8191;
  const POINTS = 17;
  const points = words(figure.points);
  const times: number[] = [];
  let reached = 0;
  for (const step of words(figure.times)) {
    reached += step;
    times.push(figure.firstSeconds + reached / 1000);
  }
  // Pairs of points in the order of the COCO key points: nose, eyes, ears, shoulders … ankles, left before right.
  const LEFT = [
    [5, 7],
    [7, 9],
    [5, 11],
    [11, 13],
    [13, 15],
  ];
  const RIGHT = [
    [6, 8],
    [8, 10],
    [6, 12],
    [12, 14],
    [14, 16],
  ];
  const MIDDLE = [
    [5, 6],
    [11, 12],
  ];
  const context = canvas.getContext('2d')!;
  let now = 0;

  const frameAt = (seconds: number) => {
    let low = 0;
    let high = times.length - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (times[middle]! <= seconds) low = middle;
      else high = middle;
    }
    return { low, high };
  };
  /** Pixels of the canvas, which follow its size on the page. */
  const fitCanvas = () => {
    const ratio = Math.min(2, window.devicePixelRatio || 1);
    const width = Math.round(canvas.clientWidth * ratio);
    const height = Math.round(canvas.clientHeight * ratio);
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
    }
    return { width, height };
  };
  type Places = (point: number) => [number, number] | null;
  /** Where each point lies on the canvas now, between the two frames around. */
  const placesIn = (width: number, height: number): Places => {
    const { low, high } = frameAt(now);
    const gap = times[high]! - times[low]!;
    const share = gap > 0 && gap < 0.5 ? Math.min(1, Math.max(0, (now - times[low]!) / gap)) : 0;
    const scale = Math.max(figure.width, figure.height) / STEPS;
    return (point) => {
      const first = (low * POINTS + point) * 2;
      const second = (high * POINTS + point) * 2;
      if (points[first] === NOT_SEEN) return null;
      const mix = points[second] === NOT_SEEN ? 0 : share;
      const x = points[first]! * (1 - mix) + points[second]! * mix;
      const y = points[first + 1]! * (1 - mix) + points[second + 1]! * mix;
      return [(x * scale * width) / figure.width, (y * scale * height) / figure.height];
    };
  };
  const drawLimbs = (at: Places, pairs: number[][], colour: string, dash: number[], thick: number) => {
    for (const [from, to] of pairs) {
      const start = at(from!);
      const end = at(to!);
      if (start === null || end === null) continue;
      for (const [stroke, size] of [
        ['rgba(0,0,0,0.65)', thick * 2.1],
        [colour, thick],
      ] as const) {
        context.strokeStyle = stroke;
        context.lineWidth = size;
        context.lineCap = 'round';
        context.setLineDash(stroke === colour ? dash : []);
        context.beginPath();
        context.moveTo(start[0], start[1]);
        context.lineTo(end[0], end[1]);
        context.stroke();
      }
    }
    context.setLineDash([]);
  };
  const drawHead = (at: Places, thick: number) => {
    const head = [0, 1, 2, 3, 4].map(at).filter((point) => point !== null);
    if (head.length === 0) return;
    const x = head.reduce((sum, point) => sum + point[0], 0) / head.length;
    const y = head.reduce((sum, point) => sum + point[1], 0) / head.length;
    const radius = 1.5 * Math.max(...head.map((point) => Math.hypot(point[0] - x, point[1] - y)), thick * 3);
    context.strokeStyle = '#f3efe6';
    context.lineWidth = thick * 0.8;
    context.beginPath();
    context.arc(x, y, radius, 0, Math.PI * 2);
    context.stroke();
    const left = at(5);
    const right = at(6);
    const neck =
      left !== null && right !== null
        ? [(left[0] + right[0]) / 2, (left[1] + right[1]) / 2]
        : (left ?? right);
    if (neck === null) return;
    const length = Math.hypot(neck[0]! - x, neck[1]! - y);
    if (length <= radius) return;
    context.beginPath();
    context.moveTo(neck[0]!, neck[1]!);
    context.lineTo(x + ((neck[0]! - x) * radius) / length, y + ((neck[1]! - y) * radius) / length);
    context.stroke();
  };
  const drawJoints = (at: Places, thick: number) => {
    context.fillStyle = '#fff';
    for (let point = 5; point < POINTS; point++) {
      const place = at(point);
      if (place === null) continue;
      context.beginPath();
      context.arc(place[0], place[1], thick * 0.75, 0, Math.PI * 2);
      context.fill();
    }
  };
  const draw = () => {
    const { width, height } = fitCanvas();
    context.clearRect(0, 0, width, height);
    const alone = stage.classList.contains('without-film');
    if (times.length === 0 || (!alone && toggle !== null && !toggle.checked)) return;
    const at = placesIn(width, height);
    const thick = Math.max(2.5, Math.min(width, height) / 110);
    drawLimbs(at, RIGHT, '#f0916f', [thick * 2.2, thick * 2], thick);
    drawLimbs(at, MIDDLE, '#f3efe6', [], thick);
    drawLimbs(at, LEFT, '#8cc9e0', [], thick);
    drawHead(at, thick);
    drawJoints(at, thick);
    canvas.dataset['seconds'] = now.toFixed(2);
  };

  document.addEventListener('tempofilm-time', (event) => {
    now = (event as CustomEvent<{ seconds: number }>).detail.seconds;
    draw();
  });
  toggle?.addEventListener('change', draw);
  new ResizeObserver(draw).observe(canvas);
}
