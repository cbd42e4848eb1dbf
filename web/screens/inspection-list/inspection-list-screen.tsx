export function InspectionListScreen() {
  return <h1>Inspection list</h1>;
}
