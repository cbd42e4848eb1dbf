import { getRouteApi } from '@tanstack/react-router';

const route = getRouteApi('/vehicles/$vehicle');

export function VehicleScreen() {
  const { vehicle } = route.useParams();
  return <h1>{vehicle}</h1>;
}
