import { oneLine, svgOf } from '../../engine/index.ts';
import { refuse, whenJudged } from '../store/editorStore.ts';
import { hand } from './exportPackage.ts';

/** The one-line as a picture that carries its own letters, so that it looks the same everywhere. */

/** Dots per millimetre of a PNG: 300 an inch. */
const DOTS = 300 / 25.4;

async function fontFace(name: string, weight: number): Promise<string> {
  const bytes = new Uint8Array(await (await fetch(`${import.meta.env.BASE_URL}fonts/${name}`)).arrayBuffer());
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return `@font-face{font-family:"Copperline Sans";font-weight:${weight};src:url(data:font/woff;base64,${btoa(binary)})}`;
}

export interface Picture {
  readonly svg: string;
  readonly width_mm: number;
  readonly height_mm: number;
}

/** With a margin of 5 mm. */
export async function pictureOf(): Promise<Picture> {
  const [{ lineUp, review }, ...faces] = await Promise.all([whenJudged(), fontFace('sans-400.woff', 400), fontFace('sans-600.woff', 600)]);
  const { items, x_mm, y_mm, width_mm, height_mm } = oneLine(lineUp, review);
  const box = { x: x_mm - 5, y: y_mm - 5, w: width_mm + 10, h: height_mm + 10 };
  return {
    svg: svgOf(items, box).replace(/>/, `><style>${faces.join('')}</style>`),
    width_mm: box.w,
    height_mm: box.h,
  };
}

export const svgAddress = ({ svg }: Picture): string => URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));

async function pngOf(picture: Picture): Promise<Blob> {
  const address = svgAddress(picture);
  const image = new Image();
  image.src = address;
  await image.decode();
  URL.revokeObjectURL(address);
  // A browser's canvas ends at about 16 000 dots: a large sheet is drawn coarser rather than not at all.
  const scale = Math.min(DOTS, 16_000 / Math.max(picture.width_mm, picture.height_mm));
  const canvas = document.createElement('canvas');
  canvas.width = Math.ceil(picture.width_mm * scale);
  canvas.height = Math.ceil(picture.height_mm * scale);
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('this browser paints no pictures');
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('the picture is too large'))), 'image/png'),
  );
}

/** As a file, named like the package. */
export async function savePicture(): Promise<void> {
  try {
    const { lineUp } = await whenJudged();
    const bytes = new Uint8Array(await (await pngOf(await pictureOf())).arrayBuffer());
    hand({ lineUp, ending: '.png', bytes });
  } catch (fault) {
    refuse(`The drawing was not saved: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
}

export async function copyPicture(kind: 'svg' | 'png'): Promise<void> {
  try {
    const picture = await pictureOf();
    const item = kind === 'svg' ? { 'text/plain': new Blob([picture.svg], { type: 'text/plain' }) } : { 'image/png': await pngOf(picture) };
    await navigator.clipboard.write([new ClipboardItem(item)]);
    refuse(`The drawing is on the clipboard as ${kind.toUpperCase()}.`);
  } catch (fault) {
    refuse(`The drawing was not copied: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
}
