using System.CommandLine;
using System.Text;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Phone.Dossiers;
using Broodtide.Phone.Language;
using Broodtide.Storage.Dossiers;
using Broodtide.Storage.Photos;
using Broodtide.Units;
using Broodtide.Workbench.Dossiers;

namespace Broodtide.Cli.Dossiers;

/// <summary>What a dossier was written with.</summary>
internal sealed record DossierAnswer(
    string To,
    string Form,
    string Title,
    bool Invented,
    int EntryCount,
    int PhotoCount,
    IReadOnlyList<string> LeftOut,
    string? Licence,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Writes a run out so that another person can read, recompute and cite it.</summary>
internal static class DossierVerb
{
    public static Command Make()
    {
        var runs = Slot.ManyWords("RUN", "Which one; several for a trial.");
        var to = Slot.Option("--to", "A folder, a file .zip or a page .html.", "PLACE");
        var title = Slot.Option("--title", "What it is called.", "TEXT");
        var by = Slot.Option("--by", "Who is named as its author; nobody if left out.", "NAME");
        var orcid = Slot.Option("--orcid", "The author's ORCID.", "NUMBER");
        var licence = Slot.Option(
            "--licence",
            $"Under which others may use it: {string.Join(", ", Licence.All.Select(one => one.Id))}. None if left out, and it says so.",
            "ID"
        );
        var names = Slot.Flag("--names", "Keep names of people, animals, vessels, instruments and runs.");
        var notes = Slot.Flag("--notes", "Keep notes, reasons and captions. They may hold anybody's name.");
        var place = Slot.Flag("--place", "Keep time zones, and places in photos that were kept whole.");
        var noPhotos = Slot.Flag("--no-photos", "Leave photos out.");
        var engine = Slot.Option(
            "--with-engine",
            "For a page: carry the app's own files from this folder, so that the page computes its numbers again.",
            "SITE"
        );
        return new VerbCommand(
            "dossier",
            "Write a run out so that another person can read, recompute and cite it: an open data package (a folder or a\n"
                + "zip), or one page that opens without a network. Names, notes and places stay out unless asked for.",
            [
                "dossier \"Brood 2\" --to brood-2.zip --licence CC-BY-4.0 --by \"A. Keeper\"",
                "dossier \"Brood 2\" --to brood-2.html --names --notes",
            ],
            [runs, to, title, by, orcid, licence, names, notes, place, noPhotos, engine],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var asked = said.Texts(runs)
                    .Select(said.Naming.Run)
                    .Where(said.Take)
                    .Select(run => run.Value);
                var ids = asked.Distinct().ToList();
                var choice = new DossierChoice
                {
                    Title = said.Text(title),
                    By = said.Text(by),
                    Orcid = said.Text(orcid),
                    Licence = said.Text(licence),
                    Names = said.Flag(names),
                    Notes = said.Flag(notes),
                    Place = said.Flag(place),
                    Photos = !said.Flag(noPhotos),
                }.Checked();
                said.Take(choice);
                if (said.Text(to) is null)
                {
                    said.Add(new Remark("dossier-place-needed"));
                }

                var carried = said.Text(engine) is { } site ? EngineOf(site) : null;
                if (carried is { Succeeded: false })
                {
                    said.Add(carried.Reason);
                }

                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var photos = PhotoFolder.Beside(sitting.JournalPath);
                var made = Dossier.Of(
                    outlook.House,
                    ids,
                    choice.Value,
                    sitting.Now,
                    sitting.Zone,
                    sha256 => photos.Read(sha256) is { Succeeded: true } read ? read.Value : null
                );
                return made.Succeeded
                    ? await WriteAsync(sitting, saying, made.Value, said.TheText(to), carried?.Value)
                    : sitting.Refuse([made.Reason], saying);
            }
        );
    }

    private static async Task<int> WriteAsync(
        Sitting sitting,
        Saying saying,
        Dossier dossier,
        string to,
        CarriedEngine? carried
    )
    {
        string form;
        switch (Path.GetExtension(to).ToLowerInvariant())
        {
            case ".html":
                form = "page";
                var page = await DossierPage.OfAsync(
                    dossier,
                    Engine,
                    Phone.Language.Words.English(),
                    Preferences.Of(UnitSystem.Metric, ClockFace.Hours24, DecimalSign.Point),
                    DossierStyle.Of(PartOfPage),
                    carried
                );
                DossierFiles.WriteFile(to, Encoding.UTF8.GetBytes(page));
                break;
            case ".zip":
                form = "zip";
                DossierFiles.WriteFile(to, PackageZip.Write(DossierPackage.Of(dossier, Engine)));
                break;
            default:
                form = "folder";
                DossierFiles.WriteFolder(to, DossierPackage.Of(dossier, Engine));
                break;
        }

        var choice = dossier.Choice;
        var answer = new DossierAnswer(
            to,
            form,
            dossier.Title,
            dossier.IsInvented,
            dossier.Entries.Count,
            dossier.Photos.Count,
            [
                .. new[]
                {
                    choice.Names ? null : "names",
                    choice.Notes ? null : "notes",
                    choice.Place ? null : "place",
                    choice.Photos ? null : "photos",
                }.OfType<string>(),
            ],
            choice.Licence,
            [.. dossier.Remarks.Select(saying.Json)]
        );
        return sitting.Answer(
            answer,
            CliJson.Default.DossierAnswer,
            told =>
            {
                told.Line(
                    $"{answer.Title}: {answer.EntryCount} entries, {answer.PhotoCount} photos, written to {to}."
                );
                if (answer.LeftOut.Count > 0)
                {
                    told.Line($"Left out: {string.Join(", ", answer.LeftOut)}.");
                }

                foreach (var remark in dossier.Remarks)
                {
                    told.Line(saying.Of(remark));
                }
            }
        );
    }

    /// <summary>Name and version of this program.</summary>
    internal static string Engine =>
        $"broodtide {typeof(DossierVerb).Assembly.GetName().Version?.ToString(3) ?? "0"}";

    // The published app: its folder, or the one that its server lies in.
    private static Parsed<CarriedEngine> EngineOf(string site)
    {
        var root = Path.Combine(site, "wwwroot") is var inner && Directory.Exists(inner) ? inner : site;
        var list = Path.Combine(root, CarriedEngine.ListName);
        if (!File.Exists(list))
        {
            return Parsed<CarriedEngine>.No("dossier-no-engine", new Argument("file", list));
        }

        try
        {
            return Parsed<CarriedEngine>.Of(
                CarriedEngine.Of(
                    CarriedEngine
                        .FilesIn(File.ReadAllText(list))
                        .Select(name => (name, File.ReadAllBytes(Path.Combine(root, name)))),
                    File.ReadAllText(Path.Combine(root, CarriedEngine.ScriptName))
                )
            );
        }
        catch (FormatException)
        {
            return Parsed<CarriedEngine>.No("dossier-no-engine", new Argument("file", list));
        }
    }

    private static byte[]? PartOfPage(string name)
    {
        using var stream = typeof(DossierVerb).Assembly.GetManifestResourceStream($"page/{name}");
        if (stream is null)
        {
            return null;
        }

        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
