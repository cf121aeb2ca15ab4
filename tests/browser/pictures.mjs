// Pictures for the stories, written byte by byte, so that nothing but their making says what is in them.

import { constants, createDeflate } from 'node:zlib';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** The remainder that ends each chunk: PNG specification, third edition, annex D. */
function crc32(bytes) {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) {
      crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
    }
  }
  return (crc ^ 0xffffffff) >>> 0;
}

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const bytes = Buffer.alloc(body.length + 8);
  bytes.writeUInt32BE(data.length, 0);
  body.copy(bytes, 4);
  bytes.writeUInt32BE(crc32(body), body.length + 4);
  return bytes;
}

/**
 * A PNG with a clear background, row by row, since the whole would fill the memory.
 *
 * @param {number} width in pixels
 * @param {number} height in pixels
 * @param {(y: number) => {from: number, to: number, colour: number[]}[]} spansOf the coloured pixels of a row, `to` not
 *   counted; a colour is red, green, blue, each 0 to 255
 */
export async function png(width, height, spansOf) {
  const deflate = createDeflate({ level: constants.Z_BEST_SPEED });
  const packed = [];
  deflate.on('data', (bytes) => packed.push(bytes));
  const ended = new Promise((resolve, reject) => deflate.on('end', resolve).on('error', reject));
  for (let y = 0; y < height; y += 1) {
    const row = Buffer.alloc(1 + 4 * width);
    for (const { from, to, colour } of spansOf(y)) {
      row.fill(Buffer.from([...colour, 255]), 1 + 4 * from, 1 + 4 * to);
    }
    if (!deflate.write(row)) {
      await new Promise((resolve) => deflate.once('drain', resolve));
    }
  }
  deflate.end();
  await ended;
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  // Eight bits a sample, red, green, blue and cover.
  header.set([8, 6], 8);
  const chunks = [chunk('IHDR', header), ...packed.map((bytes) => chunk('IDAT', bytes)), chunk('IEND', Buffer.alloc(0))];
  return Buffer.concat([SIGNATURE, ...chunks]);
}

/** The spans of a disc, or of a star with five points, round a centre. */
function blob({ x, y, radius, isStar, colour }) {
  if (!isStar) {
    return (row) => {
      const half = Math.sqrt(Math.max(0, radius ** 2 - (row - y) ** 2));
      return half > 0 ? [{ from: Math.round(x - half), to: Math.round(x + half), colour }] : [];
    };
  }
  const corners = Array.from({ length: 10 }, (_, corner) => {
    const reach = corner % 2 === 0 ? radius : radius * 0.5;
    const angle = (corner / 10) * 2 * Math.PI - Math.PI / 2;
    return [x + reach * Math.cos(angle), y + reach * Math.sin(angle)];
  });
  return (row) => {
    const crossings = corners.flatMap(([x0, y0], corner) => {
      const [x1, y1] = corners[(corner + 1) % corners.length];
      return (y0 <= row) === (y1 <= row) ? [] : [x0 + ((row - y0) / (y1 - y0)) * (x1 - x0)];
    }).sort((a, b) => a - b);
    return crossings.flatMap((from, index) => (
      index % 2 === 0 ? [{ from: Math.round(from), to: Math.round(crossings[index + 1]), colour }] : []));
  };
}

/** A picture of discs and stars by turns, so many across and so many down, none touching another. */
export function starsAndDiscs({ width, height, across, down }) {
  const [cellWidth, cellHeight] = [width / across, height / down];
  const rows = Array.from({ length: down }, (_, line) => Array.from({ length: across }, (_, column) => blob({
    x: (column + 0.5) * cellWidth,
    y: (line + 0.5) * cellHeight,
    radius: 0.35 * Math.min(cellWidth, cellHeight),
    isStar: (line + column) % 2 === 0,
    colour: [200 - 20 * column, 60 + 20 * line, 90],
  })));
  return png(width, height, (y) => rows[Math.min(down - 1, Math.floor(y / cellHeight))].flatMap((spans) => spans(y)));
}
