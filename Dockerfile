# The page's third-party files, by the lock file.
FROM node:22-slim AS page
WORKDIR /npm
COPY web/package.json web/package-lock.json web/.npmrc ./
RUN npm ci --omit=dev --ignore-scripts --no-audit --no-fund

# A virtual environment that holds everything the server runs, page and demo included.
FROM python:3.13-slim AS build
WORKDIR /source
COPY server/requirements/run.txt server/requirements/run.txt
RUN python -m venv /opt/rackside \
 && /opt/rackside/bin/pip install --no-cache-dir --require-hashes -r server/requirements/run.txt
COPY . .
COPY --from=page /npm/node_modules /npm/node_modules
RUN /opt/rackside/bin/python server/setup/vendor.py /npm/node_modules web/vendor \
 && /opt/rackside/bin/pip install --no-cache-dir --no-deps .

FROM python:3.13-slim
# Pango draws the report's PDF.
RUN apt-get update \
 && apt-get install --yes --no-install-recommends libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 fonts-dejavu-core \
 && rm -rf /var/lib/apt/lists/* \
 && useradd --create-home --home-dir /data --uid 10001 rackside
COPY --from=build /opt/rackside /opt/rackside
ENV PATH=/opt/rackside/bin:$PATH \
    PYTHONUNBUFFERED=1 \
    RACKSIDE_HOST=0.0.0.0 \
    RACKSIDE_PORT=8000 \
    RACKSIDE_DATABASE_URL=sqlite:////data/rackside.db \
    RACKSIDE_PHOTOS=/data/photos
USER rackside
WORKDIR /data
VOLUME /data
EXPOSE 8000
HEALTHCHECK --interval=30s --timeout=5s --start-period=20s \
  CMD ["python", "-c", "from urllib.request import urlopen; urlopen('http://127.0.0.1:8000/api/v1/health', timeout=4)"]
CMD ["rackside", "serve"]
