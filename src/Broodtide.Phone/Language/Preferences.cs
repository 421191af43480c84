using Broodtide.Phone.Browser;

namespace Broodtide.Phone.Language;

internal enum DecimalSign
{
    Point,
    Comma,
}

internal enum UnitSystem
{
    Metric,
    Us,
}

internal enum ClockFace
{
    Hours24,
    Hours12,
}

internal enum Ground
{
    AsPhone,
    Light,
    Dark,
}

/// <summary>
/// How this phone shows things, kept on the phone; see <see cref="People.PersonalWays"/> for what goes with a person. What
/// was not chosen follows the language.
/// </summary>
internal sealed class Preferences
{
    public Tongue Tongue { get; private set; }

    public DecimalSign DecimalSign { get; private set; }

    public UnitSystem Units { get; private set; }

    public ClockFace Clock { get; private set; }

    public Ground Ground { get; private set; }

    /// <summary>Something is to be shown in another way.</summary>
    public event Action? Changed;

    /// <summary>Somebody chose something that goes with a person, not with a phone.</summary>
    public event Action? Chosen;

    /// <summary>Preferences that are known beforehand, where there is no phone to keep them.</summary>
    public static Preferences Of(UnitSystem units, ClockFace clock, DecimalSign sign) =>
        new()
        {
            Units = units,
            Clock = clock,
            DecimalSign = sign,
        };

    public void Load()
    {
        Tongue = Read("language", Tongue);
        DecimalSign = Read("decimal", DecimalSign);
        Units = Read("units", UnitSystem.Metric);
        Clock = Read("clock", ClockFace.Hours24);
        Ground = Read("ground", Ground);
    }

    /// <summary>What readers of the language are used to, where they chose nothing.</summary>
    public void Follow(Words words) => Follow(words, Glue.ReadSetting);

    /// <param name="words">In the language that is spoken.</param>
    /// <param name="chosen">What was chosen, by the name of the setting.</param>
    public void Follow(Words words, Func<string, string?> chosen)
    {
        DecimalSign = Meant(
            chosen("decimal"),
            words["format.decimal"] == "," ? DecimalSign.Comma : DecimalSign.Point
        );
        Clock = Meant(chosen("clock"), words["format.clock"] == "12" ? ClockFace.Hours12 : ClockFace.Hours24);
    }

    // Another language begins with the page drawn anew: nothing said in the one before stays on it.
    public void Choose(Tongue tongue)
    {
        Glue.WriteSetting("language", Code(Tongue = tongue));
        Chosen?.Invoke();
    }

    public void Choose(DecimalSign sign) => KeepOwn("decimal", DecimalSign = sign);

    public void Choose(UnitSystem units) => KeepOwn("units", Units = units);

    public void Choose(ClockFace clock) => KeepOwn("clock", Clock = clock);

    /// <summary>What was chosen elsewhere is read anew. Another language is spoken from the next opening on.</summary>
    public void LoadAgain(Words words)
    {
        Load();
        Follow(words);
        Changed?.Invoke();
    }

    private void KeepOwn<T>(string name, T value)
        where T : struct, Enum
    {
        Keep(name, value);
        Chosen?.Invoke();
    }

    public void Choose(Ground ground)
    {
        Keep("ground", Ground = ground);
        Glue.SetGround(Code(ground));
    }

    private void Keep<T>(string name, T value)
        where T : struct, Enum
    {
        Glue.WriteSetting(name, Code(value));
        Changed?.Invoke();
    }

    private static T Read<T>(string name, T otherwise)
        where T : struct, Enum => Meant(Glue.ReadSetting(name), otherwise);

    private static T Meant<T>(string? code, T otherwise)
        where T : struct, Enum => Enum.TryParse<T>(code, ignoreCase: true, out var value) ? value : otherwise;

    // The script that runs before the first picture reads the ground by this name.
    private static string Code<T>(T value)
        where T : struct, Enum => value.ToString().ToLowerInvariant();
}
