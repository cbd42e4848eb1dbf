/** Failure mileage of the fleet's converters, compared. */
export function LivesScreen() {
  return <h1>Lives</h1>;
}
