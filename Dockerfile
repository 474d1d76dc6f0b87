# Builds one static binary and ships it alone: no shell, no package manager, an unprivileged user.
ARG GO_IMAGE=golang:1.26-bookworm

FROM ${GO_IMAGE} AS build
ARG VERSION=dev
ARG COMMIT=
WORKDIR /src
# The base image holds one patch of Go; go.mod names the least patch without known holes, and a newer
# one in the base image stays.
ENV GOTOOLCHAIN=auto
COPY go.mod go.sum ./
RUN go mod download
COPY . .
# Baseline amd64 (no GOAMD64 level) keeps figures alike on every processor of the kind. Without a commit
# the sources name the build, so that no two that answer differently have one name.
RUN commit=${COMMIT:-src.$(find . -type f -name '*.*' | sort | xargs sha256sum | sha256sum | cut -c1-8)} && \
    CGO_ENABLED=0 go build -trimpath -buildvcs=false -ldflags "-s -w -X tractcheck/api/wire.version=${VERSION} -X tractcheck/api/wire.commit=${commit}" -o /out/tractcheck ./cmd/tractcheck

FROM scratch
ARG VERSION=dev
ARG COMMIT=
LABEL org.opencontainers.image.title="tractcheck" \
      org.opencontainers.image.description="Can a spray drone do this tract? A JSON service that answers by computation." \
      org.opencontainers.image.licenses="Apache-2.0" \
      org.opencontainers.image.version="${VERSION}" \
      org.opencontainers.image.revision="${COMMIT}"
COPY --from=build /out/tractcheck /tractcheck
USER 65532:65532
ENV TRACTCHECK_LISTEN=0.0.0.0:8080
EXPOSE 8080
HEALTHCHECK --interval=30s --timeout=3s --start-period=2s CMD ["/tractcheck", "probe"]
ENTRYPOINT ["/tractcheck"]
CMD ["serve"]
