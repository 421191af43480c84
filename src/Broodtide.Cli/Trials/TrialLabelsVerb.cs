using System.Net;
using System.Text;
using Broodtide.Cli.Door;
using Broodtide.Cli.Looking;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Trials;
using QRCoder;

namespace Broodtide.Cli.Trials;

/// <summary>The labels that were written.</summary>
internal sealed record TrialLabelsAnswer(string Trial, int Labels, string File);

/// <summary>Labels for the vessels of a trial: their name and a code to scan, and not the treatment.</summary>
internal static class TrialLabelsVerb
{
    public static VerbCommand Make()
    {
        var name = Slot.Word("TRIAL", "Name of the trial.");
        var file = Slot.Option("--out", "The page to write; needed.", "FILE");
        var address = Slot.Option(
            "--address",
            "Address of your own server, so that the code opens the vessel there.",
            "URL"
        );
        var open = Slot.Flag(
            "--with-treatment",
            "Print the treatment too. Whoever counts will then know it."
        );
        return new(
            "labels",
            "Labels to print and stick on the vessels of a trial: the name large, a code to scan, and the treatment only if you ask, so that whoever counts does not know it.",
            ["trial labels \"Trial A\" --out labels.html"],
            [name, file, address, open],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                if (said.Text(file) is not { } path)
                {
                    said.Add(new Remark("option-needed", new Argument("field", "out")));
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                if (TrialBook.Find(outlook.House, said.TheText(name)) is not { } trial)
                {
                    return sitting.NotUnderstood([Unknown(outlook.House, said.TheText(name))], saying);
                }

                if (File.Exists(path))
                {
                    return sitting.Refuse([new Remark("file-is-there", new Argument("file", path))], saying);
                }

                var page = Page(trial, outlook.House, said.Text(address), said.Flag(open));
                await WholeFile.WriteAsync(path, Encoding.UTF8.GetBytes(page), sitting.Cancellation);
                return sitting.Answer(
                    new TrialLabelsAnswer(trial.Laid.Name, trial.Laid.Vessels.Count, path),
                    CliJson.Default.TrialLabelsAnswer,
                    told =>
                        told.Line($"{trial.Laid.Vessels.Count} labels of {trial.Laid.Name} are in {path}.")
                );
            }
        );
    }

    /// <summary>That there is no such trial, and which there are.</summary>
    internal static Remark Unknown(House house, string typed) =>
        new(
            "name-unknown",
            new("sort", "trial"),
            new("typed", typed),
            new("known", string.Join(", ", TrialBook.Of(house).Select(it => it.Laid.Name)))
        );

    private static string Page(TrialOfHouse trial, House house, string? address, bool open)
    {
        var naming = new Naming(house);
        var text = new StringBuilder(
            "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>Labels</title>\n<style>"
                + "body{font:11pt/1.3 sans-serif;margin:1cm;display:grid;grid-template-columns:repeat(auto-fill,7cm);gap:4mm}"
                + ".label{border:.3mm solid #000;border-radius:2mm;padding:3mm;height:3cm;display:grid;"
                + "grid-template-columns:1fr 2.6cm;gap:2mm;break-inside:avoid}"
                + "b{font-size:16pt;line-height:1.1}p{margin:1mm 0}svg{width:2.6cm;height:2.6cm}"
                + "</style></head><body>\n"
        );
        using var maker = new QRCodeGenerator();
        foreach (var vessel in trial.Laid.Vessels)
        {
            var id = vessel.Vessel.Value;
            // Without a server the code holds the identity, by which the journal finds the vessel.
            var code = address is null ? $"urn:uuid:{id}" : $"{address.TrimEnd('/')}/vessel/{id}";
            using var data = maker.CreateQrCode(code, QRCodeGenerator.ECCLevel.M);
            using var drawn = new SvgQRCode(data);
            text.Append("<div class=\"label\"><div><b>")
                .Append(Plain(naming.NameOf(Subject.Of(vessel.Vessel))))
                .Append("</b><p>block ")
                .Append(vessel.Block)
                .Append("</p>");
            if (open)
            {
                text.Append("<p>").Append(Plain(trial.Laid.Treatments[vessel.Treatment].Name)).Append("</p>");
            }

            text.Append("</div>")
                .Append(
                    drawn.GetGraphic(
                        4,
                        "#000",
                        "#fff",
                        drawQuietZones: false,
                        SvgQRCode.SizingMode.ViewBoxAttribute
                    )
                )
                .Append("</div>\n");
        }

        return text.Append("</body></html>\n").ToString();
    }

    private static string Plain(string text) => WebUtility.HtmlEncode(text);
}
