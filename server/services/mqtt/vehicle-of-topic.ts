/** The vehicle that a topic is of: its level where the filter has `+`. Null where the filter has none. */
export function vehicleOfTopic(filter: string, topic: string): string | null {
  // MQTT 5.0, 4.8.2: what begins with $share/<group>/ is shared out among all who ask for it.
  const levels = filter.replace(/^\$share\/[^/]+\//, '').split('/');
  const at = levels.indexOf('+');
  return at === -1 ? null : (topic.split('/')[at] ?? null);
}
