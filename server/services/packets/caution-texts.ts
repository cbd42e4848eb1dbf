/** Cautions that are usual where the work can hurt someone. Common practice, no source. */

export const ROAD =
  'Road test: one drives, another reads or records. Public road only where the vehicle is fit for it and the law allows; never hold a slipping clutch under load for long.';

export const RAISED =
  'Raised vehicle: level ground, rated lift or stands at the points that the maker names, wheels blocked. Nobody under a vehicle that only a jack holds.';

export const HOT_FLUID =
  'Hot fluid: over 80 °C (176 °F) after a drive, and it burns. Gloves, eye protection, a tray; let it cool where the step does not need it hot. Fluid and filters go to where waste oil is taken.';

export const EXHAUST =
  'Exhaust: extraction or open air with the engine running; exhaust parts stay hot for long.';

export const TURNING_PARTS =
  'Engine running: parking brake on, wheels blocked, hands, hair and clothes away from belts, fans and shafts.';

export const JUMPERS =
  'Jumpered circuits: only with a fused lead, only where the wiring diagram says, never across a control unit. Remove every jumper, and clear the codes that it set, before the vehicle leaves.';

export const GAUGES =
  'Pressure gauges: rated for more than the highest line pressure, hose and fittings tight and away from heat and turning parts. Engine off to connect and to remove.';

export const FLUSHING =
  'Flushing cleaners: ventilation, gloves, eye protection, no flame or spark. Read the safety data sheet, keep hoses secured under pressure, collect what comes out.';

export const HEAVY =
  'Heavy lifting: a transmission jack with straps, two people. The converter slides off its shaft when tilted and is full of fluid: hold it in place.';
