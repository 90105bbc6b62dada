import type { PlacedSymbol } from './ladder-layout.ts';

/** A symbol's strokes around its middle, as SVG path data; `fine` ones stay thin when the part is live; `filled` ones are closed and have the paper behind them. */
export type SymbolPaths = {
  readonly strokes: string;
  readonly fine?: string;
  readonly filled?: string;
  readonly dots?: readonly (readonly [x: number, y: number])[];
};

/** How a part stands: `conducts` undefined where nothing is known. */
export type Standing = { readonly conducts: boolean | undefined; readonly live: boolean };

const ZIGZAG = 'M-16 0L-13 -6L-8 6L-3 -6L3 6L8 -6L13 6L16 0';
const humps = (sweep: 0 | 1): string => `a5 5 0 0 ${sweep} 10 0`.repeat(4);

/**
 * The symbols of North American ladder drawings (NEMA ICS 19, ANSI Y32.2; from memory): contacts as two bars, a coil as a circle, and where those
 * have no usual form, IEC 60617. A contact's slash says that it is closed at rest; the line through it, that it is closed now.
 */
export function symbolPaths(symbol: PlacedSymbol, { conducts }: Standing): SymbolPaths {
  const { shape, y, core, normally, width } = symbol;
  const closed = conducts ?? normally === 'closed';
  switch (shape) {
    case 'contact': {
      const bars = 'M-7 0H-5M-5 -10V10M5 -10V10M5 0H7';
      return { strokes: bars + (conducts ? 'M-5 0H5' : ''), fine: normally === 'closed' ? 'M-10 11L10 -11' : '' };
    }
    case 'switch':
      return {
        strokes: `M-16 0H-12M12 0H16M-12 0${closed ? 'H12' : 'L9 -11'}`,
        dots: [
          [-12, 0],
          [12, 0],
        ],
      };
    case 'limit': {
      const lever = closed ? 'M-12 0H12' : 'M-12 0L9 -11';
      return {
        strokes: `M-16 0H-12M12 0H16${lever}`,
        fine: `M-1 ${closed ? 0 : -6}V6M-5 6H5V13H-5Z`,
        dots: [
          [-12, 0],
          [12, 0],
        ],
      };
    }
    case 'coil':
      return { strokes: '', filled: 'M-12 0A12 12 0 1 1 12 0A12 12 0 1 1 -12 0Z' };
    case 'load':
      return { strokes: '', filled: 'M-18 -10H18V10H-18Z' };
    case 'source':
      return { strokes: '', fine: 'M-7 0Q-3.5 -9 0 0T7 0', filled: 'M-12 0A12 12 0 1 1 12 0A12 12 0 1 1 -12 0Z' };
    case 'dc-source':
      return { strokes: 'M-9 0H-3M-3 -11V11M3 -5V5M3 0H9', fine: 'M-12 -8H-6M-9 -11V-5' };
    case 'fuse':
      return { strokes: '', fine: conducts === false ? 'M-14 0H-5M5 0H14' : 'M-14 0H14', filled: 'M-14 -6H14V6H-14Z' };
    case 'resistor':
      return { strokes: ZIGZAG };
    case 'thermistor':
      return { strokes: ZIGZAG, fine: 'M-15 11H-9L10 -11' };
    case 'capacitor':
      return { strokes: 'M-5 0H-3M-3 -10V10M7 -10Q0 0 7 10M4 0H5' };
    case 'inductor':
      return { strokes: `M-20 0${humps(1)}` };
    case 'flame':
      return { strokes: 'M-15 0H-8', fine: 'M12 -6V6M12 0H15', filled: 'M1 -13C7 -6 9 -1 9 3A8 8 0 0 1 -7 3C-7 -2 -1 -5 1 -13Z', dots: [[-8, 0]] };
    case 'winding': {
      if (core === undefined) return { strokes: `M-20 0${humps(1)}`, fine: 'M-18 -10H18M-18 -14H18' };
      // Drawn whole: each winding hangs from its own line toward the core, which the upper one draws.
      const upper = core > y;
      const base = core - y + (upper ? -11 : 11);
      const middle = core - y;
      const bars = upper ? `M-20 ${middle - 2}H20M-20 ${middle + 2}H20` : '';
      return { strokes: `M-20 0V${base}${humps(upper ? 0 : 1)}V0`, fine: bars };
    }
    case 'wire':
      return { strokes: wirePath(symbol, width) };
  }
}

/** A wire is drawn between its ports, level or upright. */
function wirePath({ ports, x, y }: PlacedSymbol, width: number): string {
  const [a, b] = ports;
  return width > 0 || a.y === b.y ? `M${a.x - x} ${a.y - y}H${b.x - x}` : `M${a.x - x} ${a.y - y}V${b.y - y}`;
}
