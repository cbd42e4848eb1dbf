# The screens are built in the first stage; the second holds what runs, under an ordinary user.
FROM node:22-bookworm-slim AS build
WORKDIR /app
COPY package.json package-lock.json ./
RUN npm ci --no-audit --no-fund
COPY . .
RUN npm run build

FROM node:22-bookworm-slim
ENV NODE_ENV=production
WORKDIR /app
COPY package.json package-lock.json ./
RUN npm ci --omit=dev --no-audit --no-fund && npm cache clean --force
COPY LICENSE tsconfig.json ./
COPY server server
COPY db db
COPY demo-fleet demo-fleet
COPY --from=build /app/web/dist web/dist
# Without DATABASE_URL the data of a PostgreSQL of our own are here; mount a volume on it then.
RUN mkdir /data && chown node:node /data
ENV SLIPDRIFT_DATA=/data
USER node
EXPOSE 4280
STOPSIGNAL SIGTERM
CMD ["node", "server/cli/slipdrift.mjs", "serve"]
