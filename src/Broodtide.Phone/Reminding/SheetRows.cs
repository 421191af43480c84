using System.Text.Json;
using System.Text.Json.Serialization;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Broodtide.Workbench.Reminders;
using NodaTime.Text;

namespace Broodtide.Phone.Reminding;

/// <summary>One line of a sheet, as the form asks for it.</summary>
/// <param name="Key">The action.</param>
/// <param name="Kind">What sort of thing it is for.</param>
/// <param name="About">The thing.</param>
/// <param name="Time">When, as it was printed; empty where any time does.</param>
/// <param name="Deed">What was to be done, as it was printed.</param>
/// <param name="Blank">What was left blank.</param>
internal sealed record SheetRow(
    string Key,
    SubjectKind Kind,
    Guid About,
    string Time,
    string Deed,
    SheetBlank Blank
);

/// <summary>A sheet that was put on paper: its lines stay in their order, whatever becomes due meanwhile.</summary>
/// <param name="Day">Its day, ISO 8601.</param>
/// <param name="Rows">Its lines.</param>
internal sealed record PrintedSheet(string Day, IReadOnlyList<SheetRow> Rows);

[JsonSerializable(typeof(List<PrintedSheet>))]
internal sealed partial class SheetJson : JsonSerializerContext;

/// <summary>The sheets that went on paper lately and were not typed in yet; kept on this phone.</summary>
internal sealed class PrintedSheets(BrowserStore store)
{
    private const string Name = "sheets";
    private const int Most = 14;

    /// <summary>All of them, the latest day first.</summary>
    public async Task<IReadOnlyList<PrintedSheet>> AllAsync()
    {
        try
        {
            return await store.GetFact(Name) is { } bytes
                ? JsonSerializer.Deserialize(bytes, SheetJson.Default.ListPrintedSheet) ?? []
                : [];
        }
        catch (JsonException)
        {
            return [];
        }
    }

    /// <summary>Keeps a sheet in place of an earlier one of its day.</summary>
    public async Task KeepAsync(PrintedSheet sheet) =>
        await PutAsync([sheet, .. (await AllAsync()).Where(other => other.Day != sheet.Day)]);

    /// <summary>Forgets the sheet of a day: it was typed in.</summary>
    public async Task ForgetAsync(string day) =>
        await PutAsync((await AllAsync()).Where(other => other.Day != day));

    private Task PutAsync(IEnumerable<PrintedSheet> sheets) =>
        store.PutFact(
            Name,
            JsonSerializer.SerializeToUtf8Bytes(
                [.. sheets.OrderByDescending(sheet => sheet.Day, StringComparer.Ordinal).Take(Most)],
                SheetJson.Default.ListPrintedSheet
            )
        );

    /// <summary>The lines of a sheet in words.</summary>
    public static PrintedSheet Of(
        BenchSheet sheet,
        House house,
        ActionWords words,
        Formats formats,
        PhoneZone zone
    ) =>
        new(
            LocalDatePattern.Iso.Format(sheet.Day),
            [
                .. sheet.Lines.Select(line => new SheetRow(
                    line.Action.Key,
                    line.Action.About.Kind,
                    line.Action.About.Id,
                    line.At is { } at ? formats.Time(zone.Here(at).TimeOfDay) : "",
                    words.Deed(line.Action, house),
                    line.Blank
                )),
            ]
        );
}
