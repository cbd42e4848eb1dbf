import { type Role, roles } from '#server/contract/words.ts';
import { RadioLines } from '#web/ui/radio-lines.tsx';
import { roleWords } from '#web/ui/role-words.ts';

export const RoleChoice = ({ value, onChange }: { value: Role; onChange: (role: Role) => void }) => (
  <RadioLines
    legend="Role"
    value={value}
    options={roles.map((role) => ({ value: role, label: role, words: roleWords[role] }))}
    onChange={onChange}
  />
);
