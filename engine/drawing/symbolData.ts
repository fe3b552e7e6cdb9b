/**
 * Symbols after IEEE Std 315-1975 ('us') and IEC 60617 ('iec'), both from memory. Millimetres, axis x = 0, y down, top port at 0,0.
 * `L x1 y1 x2 y2` line, `C cx cy r` circle, `D x y` filled dot, `A cx cy r from to` arc in degrees clockwise on the sheet from +x,
 * `R x y w h` box, `P x,y ...` polyline, `W cx cy r` one sine cycle 1.2 r wide, `T x y "text" size` centred text.
 */
export interface SymbolData {
  readonly height_mm: number;
  readonly both?: string;
  readonly us?: string;
  readonly iec?: string;
}

export const SYMBOL_DATA = {
  supply: {
    height_mm: 12,
    us: 'C 0 5 5; W 0 5 5; L 0 10 0 12',
    iec: 'C 0 5 5; L 0 0 0 12',
  },
  transformer: {
    height_mm: 16,
    us: 'L 0 0 0 4; A -4.5 4 1.5 0 180; A -1.5 4 1.5 0 180; A 1.5 4 1.5 0 180; A 4.5 4 1.5 0 180; A -4.5 12 1.5 180 360; A -1.5 12 1.5 180 360; A 1.5 12 1.5 180 360; A 4.5 12 1.5 180 360; L 0 12 0 16; P 9.6,6.2 8.3,3.7 10.9,3.7 9.6,6.2; L 9.6 9.6 9.6 11.2; L 9.6 11.2 8.4 12.8; L 9.6 11.2 10.8 12.8',
    iec: 'L 0 0 0 1.5; C 0 5.5 4; C 0 10.5 4; L 0 14.5 0 16; P 0,6.3 -1.2,4 1.2,4 0,6.3; L 0 10 0 11.4; L 0 11.4 -1 12.6; L 0 11.4 1 12.6',
  },
  breaker: {
    height_mm: 12,
    us: 'L 0 0 0 2.4; C 0 3 0.6; C 0 9 0.6; A -0.2 6 3.9 -52 52; L 0 9.6 0 12',
    iec: 'L 0 0 0 3; L -0.8 2.2 0.8 3.8; L -0.8 3.8 0.8 2.2; L 0 9 -2.8 3.4; L 0 9 0 12',
  },
  fuse: {
    height_mm: 12,
    us: 'L 0 0 0 3; A 0 4.5 1.5 90 270; A 0 7.5 1.5 -90 90; L 0 9 0 12',
    iec: 'L 0 0 0 12; R -1.5 3 3 6',
  },
  disconnectOpen: {
    height_mm: 12,
    us: 'L 0 0 0 2.4; C 0 3 0.6; C 0 9 0.6; L 0 8.4 -3.4 3.4; L 0 9.6 0 12',
    iec: 'L 0 0 0 3; L -1.3 3 1.3 3; L 0 9 -3.2 3.6; L 0 9 0 12',
  },
  disconnectClosed: {
    height_mm: 12,
    us: 'L 0 0 0 2.4; C 0 3 0.6; C 0 9 0.6; L -0.55 8.6 -0.55 2.2; L 0 9.6 0 12',
    iec: 'L 0 0 0 3; L -1.3 3 1.3 3; L 0 9 -0.9 2.6; L 0 9 0 12',
  },
  reactor: {
    height_mm: 12,
    us: 'L 0 0 0 2; A 0 3.33 1.33 -90 90; A 0 6 1.33 -90 90; A 0 8.67 1.33 -90 90; L 0 10 0 12; L 2.4 2.6 2.4 9.4; L 3.2 2.6 3.2 9.4',
    iec: 'L 0 0 0 6; L 0 6 -3.6 6; A 0 6 3.6 -90 180; L 0 9.6 0 12',
  },
  emcFilter: {
    height_mm: 14,
    both: 'L 0 0 0 1; R -5 1 10 12; L 0 13 0 14',
    us: 'T 0 8.3 "EMC" 3.8',
    iec: 'W 0 4.4 2.4; W 0 7 2.4; W 0 9.6 2.4; L -1 3.2 1 5.6; L -1 5.8 1 8.2',
  },
  dvdtFilter: {
    height_mm: 14,
    both: 'L 0 0 0 1; R -5 1 10 12; L 0 13 0 14; P -3.2,10.6 -1.4,10.6 1,4.4 3.2,4.4',
  },
  sineFilter: {
    height_mm: 14,
    both: 'L 0 0 0 1; R -5 1 10 12; L 0 13 0 14; P -3.6,8.8 -3.6,5.2 -2.2,5.2 -2.2,8.8 -0.8,8.8 -0.8,5.2 -0.2,5.2; W 2 7 2',
  },
  terminator: {
    height_mm: 10,
    us: 'D 0 0; L 0 0 3 0; P 3,0 3.4,-1 4.2,1 5,-1 5.8,1 6.6,-1 7,0; L 7 0 9 0; L 9 -1.8 9 1.8; A 12 0 2.2 140 220; L 9.8 0 12 0; D 12 0',
    iec: 'D 0 0; L 0 0 3 0; R 3 -0.9 4 1.8; L 7 0 9 0; L 9 -1.8 9 1.8; L 9.8 -1.8 9.8 1.8; L 9.8 0 12 0; D 12 0',
  },
  drive: {
    height_mm: 20,
    us: 'L 0 0 0 1; R -7 1 14 18; L -7 7 7 7; L -7 13 7 13; W 0 4 3; L -2.4 9.5 2.4 9.5; L -2.4 10.7 -0.9 10.7; L -0.3 10.7 0.9 10.7; L 1.5 10.7 2.4 10.7; W -1.6 16 2.4; L 1.7 17.6 3.9 14.6; P 3.1,14.8 3.9,14.6 3.9,15.5; L 0 19 0 20',
    iec: 'L 0 0 0 2; R -8 2 16 16; L -8 18 8 2; W -4.6 6 3; W 2.2 14.6 3; T -0.9 7.4 "f1" 3.8; T 5.9 16 "f2" 3.8; L 0 18 0 20',
  },
  junction: {
    height_mm: 8,
    us: 'L 0 0 0 1; R -3 1 6 6; T 0 5.3 "J" 3.8; L 0 7 0 8',
    iec: 'L 0 0 0 2.2; R -3 1 6 6; C 0 4 0.9; L 0 4.9 0 8; L 0 2.2 0 3.1',
  },
  contactor: {
    height_mm: 12,
    us: 'L 0 0 0 4.6; L -2.2 4.6 2.2 4.6; L -2.2 7.4 2.2 7.4; L 0 7.4 0 12',
    iec: 'L 0 0 0 3; A 0 3.7 0.7 -90 90; L 0 9 -2.8 3.4; L 0 9 0 12',
  },
  motor: {
    height_mm: 16,
    us: 'L 0 0 0 2; C 0 9 7; T 0 10.9 "M" 7',
    iec: 'L 0 0 0 2; C 0 9 7; T 0 9.1 "M" 5.7; T 0 13.2 "3 ~" 3.9',
  },
  motorBrake: {
    height_mm: 16,
    both: 'L 0 0 0 2; C 0 9 7; L 7 8.6 9.5 8.6; L 7 9.4 9.5 9.4; L 12 4 12 6',
    us: 'T 0 10.9 "M" 7; R 9.5 6 5 6; T 12 10.3 "B" 3.8',
    iec: 'T 0 9.1 "M" 5.7; T 0 13.2 "3 ~" 3.9; R 9.5 6 5 6; L 9.5 7 14.5 7; T 12 11.2 "B" 3.8',
  },
} as const satisfies Readonly<Record<string, SymbolData>>;

export type SymbolName = keyof typeof SYMBOL_DATA;
