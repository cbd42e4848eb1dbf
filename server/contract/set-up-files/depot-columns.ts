import { weekdays } from '#server/contract/words.ts';
import { CLOSED_WORD, type SetUpColumn } from './set-up-column.ts';

export const depotColumns: readonly SetUpColumn[] = [
  {
    name: 'id',
    path: ['id'],
    holds: 'text',
    unit: 'text',
    needed: true,
    example: 'example-depot',
    meaning: 'Your own short name; vehicles name their depot by it',
  },
  {
    name: 'name',
    path: ['name'],
    holds: 'text',
    unit: 'text',
    needed: true,
    example: 'Example depot',
    meaning: 'As people read it',
  },
  {
    name: 'bays',
    path: ['bays'],
    holds: 'number',
    unit: 'whole number',
    example: '2',
    meaning: 'Bays for inspections; 1 where nothing was ever said, 0 where nothing can be booked',
  },
  {
    name: 'time_zone',
    path: ['time_zone'],
    holds: 'text',
    unit: 'IANA name',
    example: 'Europe/Vienna',
    meaning: 'Time zone of its days and hours; UTC where nothing was ever said',
  },
  ...weekdays.map(
    (day): SetUpColumn => ({
      name: day,
      path: ['week', day],
      holds: 'hours',
      unit: 'HH:MM-HH:MM',
      example: day === 'saturday' || day === 'sunday' ? CLOSED_WORD : '07:00-16:00',
      meaning: `Hours of a ${day.charAt(0).toUpperCase()}${day.slice(1)}, or ${CLOSED_WORD}`,
    }),
  ),
];
