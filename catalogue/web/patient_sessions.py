"""Sessions that outlive a clock put back: nobody is signed out in the middle of a sentence."""

from __future__ import annotations

import time
from typing import Any

from flask import Flask
from flask.sessions import SecureCookieSessionInterface
from itsdangerous import SignatureExpired, TimestampSigner, URLSafeTimedSerializer


class PatientSigner(TimestampSigner):
    """Takes a signature from the future for a fresh one; too old is too old as ever."""

    def unsign(
        self, signed_value: Any, max_age: int | None = None, return_timestamp: Any = False
    ) -> Any:
        """Return what was signed, with its time where asked. Raises BadSignature."""
        value, signed = super().unsign(signed_value, return_timestamp=True)
        if max_age is not None and time.time() - signed.timestamp() > max_age:
            raise SignatureExpired("The session is too old.", payload=value, date_signed=signed)
        return (value, signed) if return_timestamp else value


class PatientSessions(SecureCookieSessionInterface):
    """Flask's own sessions, signed by a `PatientSigner`."""

    def get_signing_serializer(self, app: Flask) -> URLSafeTimedSerializer | None:
        """Return what signs and reads the session's cookie."""
        made = super().get_signing_serializer(app)
        if made is not None:
            made.signer = PatientSigner
        return made
