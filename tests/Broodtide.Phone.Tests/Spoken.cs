using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Broodtide.Phone.Pictures;

namespace Broodtide.Phone.Tests;

/// <summary>What the pictures say, in English, with a decimal point and a clock of 24 hours.</summary>
internal static class Spoken
{
    private static readonly Words Words = Words.English();

    public static PictureText Pictures { get; } =
        new(Words, new Formats(new Preferences(), Words, new PhoneClock()));

    public static PictureSpeech Speech { get; } = new(Words, Pictures);

    public static TideLineText TideLine { get; } = new(Words, Pictures);
}
