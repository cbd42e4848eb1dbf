/** How many times as much the fault tests try: 1, or what `npm run faults` asks for. */
export const faultRounds = Math.max(1, Number(process.env.SLIPDRIFT_FAULT_ROUNDS ?? 1));
