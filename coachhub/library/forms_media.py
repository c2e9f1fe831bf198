"""A link to a film elsewhere, and the club's own picture or film."""

from __future__ import annotations

from typing import Any, Final
from urllib.parse import urlsplit

from django import forms
from django.core.files import File
from django.core.validators import URLValidator
from django.utils.translation import gettext_lazy as _

from coachhub.library.films import clean_film
from coachhub.library.media_kinds import MP4, PICTURE_BYTES, CleanFile, MediaError, media_type_of
from coachhub.library.pictures import clean_picture

LINK_LENGTH: Final = 300
_TOO_LARGE: Final = _("Too large: 5 MB for a picture and 30 MB for a film at most.")


class LinkForm(forms.Form):
    video_url = forms.CharField(
        label=_("Film elsewhere"),
        required=False,
        max_length=LINK_LENGTH,
        help_text=_("An address that starts with https://. People see where it leads before they follow it."),
        widget=forms.TextInput(attrs={"inputmode": "url", "autocomplete": "off"}),
        validators=[URLValidator(schemes=["https"], message=_("Write a whole address that starts with https://."))],
    )

    def clean_video_url(self) -> str:
        url: str = self.cleaned_data["video_url"]
        if "@" in urlsplit(url).netloc:
            raise forms.ValidationError(_("An address must not carry a name or password."), code="name")
        return url


class FileForm(forms.Form):
    """`file` becomes a `CleanFile`."""

    file = forms.FileField(
        label=_("Picture or short film"),
        help_text=_("JPEG, PNG or WebP up to 5 MB; MP4 up to 30 MB. Place, time and camera are taken out of it."),
        error_messages={"required": _("Choose a file.")},
        widget=forms.FileInput(attrs={"accept": ".jpg,.jpeg,.png,.webp,.mp4"}),
    )
    shows = forms.CharField(
        label=_("What it shows"),
        max_length=160,
        help_text=_("For those who do not see it, such as “deepest point, knee over the foot”."),
    )

    def __init__(self, *args: Any, is_over: bool = False, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if is_over:
            self.fields["file"].error_messages["required"] = _TOO_LARGE

    def clean_file(self) -> CleanFile:
        try:
            return cleaned(self.cleaned_data["file"])
        except MediaError as error:
            raise forms.ValidationError(error.sentence, code="refused") from error


def cleaned(upload: File[bytes]) -> CleanFile:
    """What is left of an upload once all but its points, picture and sound is out. MediaError says what is wrong."""
    media_type = media_type_of(upload.read(16))
    size = upload.size or 0
    if media_type is None:
        raise MediaError(_("Only JPEG, PNG and WebP pictures and MP4 films are taken; this is something else."))
    if media_type == MP4:
        return clean_film(upload, size)
    if size > PICTURE_BYTES:
        raise MediaError(_TOO_LARGE)
    upload.seek(0)
    return clean_picture(upload.read(), media_type)
