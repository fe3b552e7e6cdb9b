/**
 * Numbers that know their unit. A plain number may be given where one is asked for, since documents and tables hold plain numbers; but
 * amperes that were computed cannot be passed on as volts, ohms or metres: the compiler refuses.
 */
type In<Unit extends string> = number & { readonly unit?: Unit };

export type Volts = In<'V'>;
export type Amperes = In<'A'>;
export type Ohms = In<'ohm'>;
export type Celsius = In<'C'>;
export type Hertz = In<'Hz'>;
