"""Security headers of every answer, the app's pages, and what a path cannot reach."""

import pytest

from shuntbook.app import create_app

# OWASP Secure Headers; MDN on Content-Security-Policy: nothing inline, nothing from elsewhere.
DIRECTIVES = {
    "default-src": "'none'",
    "script-src": "'self'",
    "style-src": "'self'",
    "img-src": "'self' blob:",
    "connect-src": "'self'",
    "media-src": "'self' blob:",
    "manifest-src": "'self'",
    "worker-src": "'self'",
    "font-src": "'self'",
    "base-uri": "'none'",
    "form-action": "'none'",
    "frame-ancestors": "'none'",
    "require-trusted-types-for": "'script'",
    "trusted-types": "shuntbook",
}


def policy(answer) -> dict[str, str]:
    parts = (part.strip().split(" ", 1) for part in answer.headers["Content-Security-Policy"].split(";"))
    return dict(parts)


@pytest.mark.parametrize(
    ("path", "status"),
    [
        ("/", 200),
        ("/sw.js", 200),
        ("/assets/main-0a1b2c.js", 200),
        ("/nothing", 404),
        ("/api/v1/health", 200),
        ("/api/v1/setup", 401),
        ("/api/v1/sync", 405),
        ("/api/v1/nothing", 404),
        ("/api/v1/openapi.json", 200),
    ],
)
def test_every_answer_carries_the_policy_and_its_companions(client, path, status):
    answer = client.get(path, buffered=True)
    assert answer.status_code == status
    assert policy(answer) == DIRECTIVES
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["Referrer-Policy"] == "no-referrer"
    assert answer.headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert answer.headers["Cross-Origin-Resource-Policy"] == "same-origin"
    assert "Permissions-Policy" in answer.headers
    assert "Access-Control-Allow-Origin" not in answer.headers
    assert "Set-Cookie" not in answer.headers


def test_an_answer_of_304_carries_them_too(phone):
    reader = phone()
    tag = reader.get("/setup").headers["ETag"]
    answer = reader.get("/setup", headers={"If-None-Match": tag})
    assert answer.status_code == 304
    assert policy(answer) == DIRECTIVES


def test_only_hashed_assets_may_be_kept_for_good(client):
    assert "immutable" in client.get("/assets/main-0a1b2c.js", buffered=True).headers["Cache-Control"]
    for path in ("/", "/sw.js"):
        assert client.get(path, buffered=True).headers["Cache-Control"] == "no-cache"


@pytest.mark.parametrize(
    "path",
    ["/../secret.txt", "/%2e%2e/secret.txt", "/..%2fsecret.txt", "/assets/../../secret.txt", "//etc/passwd", "/."],
)
def test_no_path_leads_out_of_the_pages(client, path):
    answer = client.get(path, buffered=True)
    assert answer.status_code in (404, 308)
    assert b"not a page" not in answer.data
    assert b"root:" not in answer.data


def test_an_app_that_is_not_built_says_what_to_do(sample_store, tmp_path):
    answer = create_app(sample_store, tmp_path / "nothing").test_client().get("/")
    assert answer.status_code == 404
    assert "not built" in answer.get_json()["detail"]
