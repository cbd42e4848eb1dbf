import type { FileUnit, MappedField } from '#server/contract/mappings.ts';
import { unitOf } from '#server/services/intake/mapped/unit-words.ts';

export type NamedAs = MappedField | 'vehicle' | 'vin' | 'device' | 'time' | 'name' | 'value' | 'unit';

interface Words {
  as: NamedAs;
  is: RegExp;
  not?: RegExp;
}

/**
 * Words of column names in English, German, French and Spanish, less accents and case. The first that fits is taken, so what
 * is told more exactly comes first.
 */
const words: readonly Words[] = [
  {
    as: 'codes',
    is: /\b(dtcs?|codes?|faults?|trouble codes?|fehler\w*|spns?|defauts?|codigos?|averias?|pannes?)\b/,
    not: /count|anzahl|nombre|numero|route|post|zip|vehicle|fahrzeug|level/,
  },
  {
    as: 'fluid_c',
    is: /\b(atf|tft)\b|\b(trans\w*|gearbox|gear ?oil|getriebe\w*|fluid|oil|huile|boite|bv|aceite|caja|ol|oel)\b.*\b(temp\w*|t)\b|\btemp\w*\b.*\b(trans\w*|gearbox|getriebe\w*|fluid|oil|huile|boite|aceite|caja|atf|ol)\b|getriebe\w*temp\w*|oltemp\w*|oeltemp\w*|^fluid( [cf])?$/,
    not: /\b(engine|motor\w*|moteur|coolant|kuhl\w*|water|wasser|air|luft|ambient|outside|level|stand|pressure|druck|niveau|nivel|presion|pression|axle|brake)\b/,
  },
  {
    as: 'slip_rpm',
    is: /\bslip\w*\b|schlupf|glissement|patinage|deslizamiento|patinaje|resbalamiento|differenzdrehzahl/,
    not: /wheel|\brad|roue|rueda|tyre|tire|brake|traction|\basr\b|flag|status|count|ratio/,
  },
  {
    as: 'turbine_rpm',
    is: /turbin\w*|\b(input|primary)\b.*\b(shaft|speed|rpm)\b|trans\w* input|getriebeeingang\w*|eingangsdrehzahl|eingangswelle\w*|arbre (d ?entree|primaire)|(eje|arbol) (de )?entrada|eje primario/,
    not: /turbo|torque|boost|temp/,
  },
  {
    as: 'duty_pct',
    is: /\b(duty|pwm|tastverhaltnis|tastgrad|rapport cyclique|ciclo (de )?trabajo)\b|\b(tcc|lock ?up|lockup|wuk|wk|wandler\w*|converter clutch|convertisseur|pontage|convertidor|bloqueo)\b.*\b(command\w*|cmd|apply|duty|pwm|pct|percent|ansteuer\w*|soll\w*|commande|consigne|mando)\b|\b(command\w*|ansteuer\w*|commande|consigne|mando)\b.*\b(tcc|lock ?up|wuk|wk|wandler\w*|converter clutch|convertisseur|pontage|embrayage|convertidor|embrague|bloqueo)\b|^(tcc|lock ?up)( solenoid)?$|wandler\w*ansteuer\w*/,
    not: /temp|status|state|zustand|pressure|druck|strom|current|\bma\b|fan|alternator/,
  },
  {
    as: 'engine_rpm',
    is: /\b(engine|motor|moteur|eng|mot)\b.*\b(speed|spd|rpm|drehzahl|regime|tours?|revoluciones|velocidad|vitesse|giros?|n)\b|\b(speed|rpm|drehzahl|regime|tours?|revoluciones|velocidad|vitesse|giros)\b.*\b(engine|motor|moteur)\b|motordrehzahl|^(rpm|drehzahl|regime|revoluciones|tours)$/,
    not: /turbin|wheel|fan|lufter|output|pump|vehicle|fahrzeug|idle|max|limit|desired|soll/,
  },
  {
    as: 'shifting',
    is: /\b(shift(ing)?|shift (in progress|active)|schaltung|schaltvorgang|schaltet|changement( de)?( rapport| vitesse)?|cambio( de)?( marcha)?( en curso)?|cambiando)\b/,
    not: /lever|hebel|count|time|zeit|duration|levier|palanca/,
  },
  {
    as: 'torque_pct',
    is: /torque|drehmoment|\bcouple\b|\bpar( motor)?\b|motormoment/,
    not: /reference|referenz|limit|max|demand|soll|converter|wandler/,
  },
  {
    as: 'throttle_pct',
    is: /throttle|accelerator|\baccel\b|\bapp\b|gaspedal|fahrpedal\w*|pedal\w*|drosselklappe\w*|papillon|accelerateur|acelerador|mariposa/,
    not: /brake|brems|frein|freno|clutch pedal|kupplung|temp|switch/,
  },
  {
    as: 'load_pct',
    is: /\b(engine )?load\b|motorlast|\blast\b|auslastung|\bcharge( moteur)?\b|\bcarga( motor| del motor)?\b/,
    not: /axle|achs|weight|gewicht|\bkg\b|batter|payload|nutzlast|passenger|essieu|eje|download/,
  },
  {
    as: 'odometer_km',
    is: /\bodo\w*|mileage|kilomet(er|re)?stand|km ?stand|laufleistung|kilometrage|compteur|kilometraje|cuentakilometros|tacho\w*|\b(total|vehicle|hr)\b.*\b(distance|dist)\b|\bdistance\b.*\btotal|wegstrecke|gesamt\w*(strecke|weg|km)|^(km|kilometers|kilometres|kilometer|miles|distance)$/,
    not: /trip|tages|\bday\b|daily|partiel|parcial|since|seit|speed|geschw|per hour|\bh\b/,
  },
  {
    as: 'gear',
    is: /\b(gear|gang|fahrstufe|ist ?gang|rapport( engage)?|marcha|vitesse engagee)\b/,
    not: /temp|oil|ratio|target|requested|soll|desired|ziel|gearbox|lever|cible|objetivo/,
  },
  {
    as: 'speed_kmh',
    is: /\b(speed|velocity|geschwindigkeit|fahrgeschwindigkeit|fahrzeuggeschwindigkeit|vitesse|velocidad|tempo)\b|fahrzeuggeschw\w*|^v$/,
    not: /engine|motor|moteur|turbin|shaft|fan|lufter|rpm|drehzahl|output|input|limit|\bwind\b|max/,
  },
  {
    as: 'seconds',
    is: /\b(window|duration|interval|averag\w*|dauer|mittelungs\w*|fenster|duree|duracion|ventana|intervalle|intervalo)\b|^(seconds|sekunden|secondes|segundos)$/,
    not: /engine|trip|idle|maintenance/,
  },
  {
    as: 'time',
    is: /\b(time|timestamp|time ?stamp|date ?time|datetime|date|ts|moment|recorded( at)?|zeit\w*|uhrzeit|datum|messzeit\w*|horodatage|heure|jour|fecha|hora|utc|day|tag|at|clock|epoch)\b|zeitstempel|zeitpunkt/,
    not: /last|next|since|seit|engine|run ?time|idle|\block|shift|total|service|build/,
  },
  { as: 'vin', is: /\b(vin|fin|fahrgestell\w*|chassis\w*|bastidor)\b/ },
  {
    as: 'vehicle',
    is: /\b(vehicle|unit|bus|truck|asset|equipment|fleet (no|nr|number|id)|fahrzeug\w*|fzg|wagen\w*|kfz|kennzeichen|vehicule|autocar|camion|no? parc|vehiculo|autobus|coche|unidad|equipo|matricula|immatriculation|plate)\b/,
    not: /type|typ\b|model|class|status|speed|weight|group|system/,
  },
  {
    as: 'device',
    is: /^(device|tracker|gateway|logger|telematics|imei|gerat|geraet)( ?(id|no|nr|number|name))?$/,
  },
  { as: 'unit', is: /^(unit|units|uom|einheit|unite|unidad|unidades)$/ },
  {
    as: 'name',
    is: /\b(signal|parameter|param|name|channel|kanal|messgrosse|variable|pid|sensor|tag|item|parametre|nom|nombre|kenngrosse|bezeichnung|grosse|metric|measure(ment)?|key|quantity)\b/,
  },
  { as: 'value', is: /\b(value|val|wert|messwert|valeur|valor|reading|betrag)\b/ },
];

export interface NameParts {
  /** plain words, less the unit */
  words: string;
  /** with a unit at the end that is not in brackets */
  all: string;
  unit: FileUnit | null;
  /** written as a unit and not known */
  strangeUnit: string | null;
}

/** Parts a name into words and the unit in brackets or at its end. */
export function partName(name: string): NameParts {
  const bracket = /[[(<]([^\])>]*)[\])>]\s*$/.exec(name);
  if (bracket !== null) {
    const inside = (bracket[1] ?? '').trim();
    const unit = unitOf(inside) ?? null;
    const words = toWords(name.slice(0, bracket.index));
    return {
      words,
      all: words,
      unit,
      strangeUnit: unit === null && inside !== '' && inside.length <= 8 ? inside : null,
    };
  }
  const behind = /^(.*?)[\s_.,/-]+((?:in\s+)?(?:1\/min|min-1|[^\s_.-]{1,7}(?:\/[hs])?))\s*$/i.exec(name);
  const unit = behind === null ? undefined : unitOf((behind[2] ?? '').replace(/^in\s+/i, ''));
  if (behind !== null && unit !== undefined)
    return { words: toWords(behind[1] ?? ''), all: toWords(name), unit, strangeUnit: null };
  return { words: toWords(name), all: toWords(name), unit: null, strangeUnit: null };
}

/** What a name says a column is; all that fit, the likeliest first. */
export const readName = (plain: string): NamedAs[] =>
  words.filter(({ is, not }) => is.test(plain) && not?.test(plain) !== true).map(({ as }) => as);

/** A unit among the words of a name, such as the km of km-Stand. */
export const findUnit = (plain: string): FileUnit | undefined =>
  /kilomet/.test(plain)
    ? 'km'
    : plain
        .split(' ')
        .filter((word) => word.length > 1)
        .map(unitOf)
        .find((unit) => unit !== undefined);

function toWords(name: string): string {
  return name
    .replaceAll(/([a-z])([A-Z])/g, '$1 $2')
    .replaceAll('ß', 'ss')
    .normalize('NFD')
    .replaceAll(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9%/]+/g, ' ')
    .trim();
}
