using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using Broodtide.Units;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Workbench.Settling;

/// <summary>What whoever got juveniles tells of them, as it stands in a survival file (docs/settlement-and-return.md).</summary>
/// <param name="Card">The code of the care card.</param>
/// <param name="On">The day they were counted.</param>
/// <param name="Alive">How many live.</param>
/// <param name="Received">How many had come there.</param>
/// <param name="Note">What else was told.</param>
public sealed record SurvivalTold(
    CareCode Card,
    LocalDate On,
    int Alive,
    int? Received = null,
    string? Note = null
);

/// <summary>Reads and writes survival files. Total: no bytes make the reader throw.</summary>
public static class SurvivalFile
{
    /// <summary>What the file calls itself.</summary>
    public const string FormatName = "broodtide-survival";

    /// <summary>The version that is written and read.</summary>
    public const int Version = 1;

    /// <summary>A file is never larger, in bytes.</summary>
    public const int MostBytes = 4096;

    /// <summary>More juveniles than anyone gives away at once.</summary>
    public const int MostAnimals = 100_000;

    private const int LongestNote = 500;

    /// <summary>The bytes of a file.</summary>
    public static byte[] Write(SurvivalTold told) =>
        JsonSerializer.SerializeToUtf8Bytes(
            new SurvivalRow(
                FormatName,
                Version,
                told.Card.Text,
                LocalDatePattern.Iso.Format(told.On),
                told.Alive,
                told.Received,
                told.Note
            ),
            SurvivalJson.Default.SurvivalRow
        );

    /// <summary>What a file tells, or why it cannot be taken: the first fault.</summary>
    public static Parsed<SurvivalTold> Read(ReadOnlySpan<byte> utf8)
    {
        if (utf8.Length > MostBytes)
        {
            return No("survival-too-long", new Argument("most", MostBytes));
        }

        SurvivalRow? row;
        try
        {
            ReadOnlySpan<byte> mark = [0xEF, 0xBB, 0xBF];
            row = JsonSerializer.Deserialize(
                utf8.StartsWith(mark) ? utf8[mark.Length..] : utf8,
                SurvivalJson.Default.SurvivalRow
            );
        }
        catch (JsonException)
        {
            return No("survival-not-read");
        }

        if (row is null || !string.Equals(row.Format, FormatName, StringComparison.Ordinal))
        {
            return No("survival-not-read");
        }

        if (row.Version != Version)
        {
            return No(
                "survival-other-version",
                new Argument("version", row.Version?.ToString(CultureInfo.InvariantCulture) ?? "")
            );
        }

        return Told(row.Card, row.On, row.Alive, row.Received, row.Note);
    }

    /// <summary>The same from what a person typed.</summary>
    /// <param name="card">The code.</param>
    /// <param name="on">The day, as 2026-08-31.</param>
    /// <param name="alive">How many live.</param>
    /// <param name="received">How many had come there.</param>
    /// <param name="note">What else was told.</param>
    public static Parsed<SurvivalTold> Told(string? card, string? on, int? alive, int? received, string? note)
    {
        if (CareCode.Read(card) is not { } code)
        {
            return No("survival-code-wrong", new Argument("typed", Short(card)));
        }

        if (on is null || !LocalDatePattern.Iso.Parse(on).TryGetValue(default, out var day))
        {
            return No("survival-day-wrong", new Argument("typed", Short(on)));
        }

        if (alive is not { } live || live is < 0 or > MostAnimals || received is < 1 or > MostAnimals)
        {
            return No("survival-number-wrong", new Argument("most", MostAnimals));
        }

        if (received is { } came && live > came)
        {
            return No("survival-more-than-came", new("alive", live), new("received", came));
        }

        var words = string.IsNullOrWhiteSpace(note) ? null : note.Trim();
        return words?.Length > LongestNote || words?.Any(char.IsControl) is true
            ? No("survival-note-wrong", new Argument("most", LongestNote))
            : Parsed<SurvivalTold>.Of(new SurvivalTold(code, day, live, received, words));
    }

    private static string Short(string? text) =>
        text is null ? ""
        : text.Length > 40 ? text[..40]
        : text;

    private static Parsed<SurvivalTold> No(string code, params ReadOnlySpan<Argument> arguments) =>
        Parsed<SurvivalTold>.No(code, arguments);
}

internal sealed record SurvivalRow(
    string? Format,
    int? Version,
    string? Card,
    string? On,
    int? Alive,
    int? Received,
    string? Note
);

[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Default,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    AllowDuplicateProperties = false,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    WriteIndented = true
)]
[JsonSerializable(typeof(SurvivalRow))]
internal sealed partial class SurvivalJson : JsonSerializerContext;
