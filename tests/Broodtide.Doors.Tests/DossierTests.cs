using System.IO.Compression;
using System.Text.RegularExpressions;
using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed partial class DossierTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_dossier_goes_out_and_comes_in_elsewhere_apart_from_the_journal()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var zip = kitchen.At("d.zip");
        var told = (await kitchen.DoAsync("dossier", "Brood 2", "--to", zip, "--json")).Json;
        Assert.Equal(
            ["names", "notes", "place"],
            told.GetProperty("leftOut").EnumerateArray().Select(one => one.GetString())
        );
        Assert.True(told.GetProperty("invented").GetBoolean());
        kitchen.Journal = kitchen.At("other.broodtide");
        await kitchen.DoAsync("write", "note", "mine");
        var before = (await kitchen.DoAsync("journal")).Out;
        Assert.True(
            (await kitchen.DoAsync("dossiers", "take", zip, "--json")).Json.GetProperty("isNew").GetBoolean()
        );
        Assert.False(
            (await kitchen.DoAsync("dossiers", "take", zip, "--json")).Json.GetProperty("isNew").GetBoolean()
        );
        Assert.Equal(before, (await kitchen.DoAsync("journal")).Out);
        Assert.Contains(
            "(invented)",
            (await kitchen.DoAsync("dossiers", "list")).Out,
            StringComparison.Ordinal
        );
        var id = (await kitchen.DoAsync("dossiers", "list", "--json"))
            .Json.GetProperty("imported")[0]
            .GetProperty("id")
            .GetString()!;
        Assert.Equal(2, (await kitchen.RunAsync("dossiers", "remove", "0")).Code);
        await kitchen.DoAsync("dossiers", "remove", id[..12]);
        Assert.Contains("None", (await kitchen.DoAsync("dossiers", "list")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_changed_dossier_is_refused_with_a_reason_and_nothing_is_kept()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var zip = kitchen.At("d.zip");
        await kitchen.DoAsync("dossier", "Brood 2", "--to", zip);
        using (var archive = ZipFile.Open(zip, ZipArchiveMode.Update))
        {
            archive.GetEntry("tables/counts.csv")!.Delete();
            using var writer = new StreamWriter(archive.CreateEntry("tables/counts.csv").Open());
            await writer.WriteAsync("a better result");
        }

        var refused = await kitchen.RunAsync("dossiers", "take", zip);
        Assert.Equal(2, refused.Code);
        Assert.Contains(
            "tables/counts.csv is not as it was written",
            refused.Error,
            StringComparison.Ordinal
        );
        Assert.Contains("None", (await kitchen.DoAsync("dossiers", "list")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_page_asks_for_nothing_and_runs_nothing()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var file = kitchen.At("d.html");
        await kitchen.DoAsync(
            "write",
            "note",
            "<script>alert(1)</script><iframe src='https://elsewhere.example'></iframe>",
            "--run",
            "Brood 2"
        );
        await kitchen.DoAsync("dossier", "Brood 2", "--to", file, "--names", "--notes");
        var page = await File.ReadAllTextAsync(file, Cancellation);
        Assert.Contains("elsewhere.example", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<iframe", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<link", page, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("default-src 'none'", page, StringComparison.Ordinal);
        Assert.Contains("invented data", page, StringComparison.Ordinal);
        // Every address in it is data of its own or a pattern of its own picture.
        Assert.All(Fetched().Matches(page), address => Assert.Matches("^(data:|#)", address.Groups[1].Value));
        Assert.True(Fetched().Count(page) >= 3);
    }

    [Fact]
    public async Task A_slip_in_the_choice_is_said_and_nothing_written()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        foreach (
            var (slip, said) in new (string[], string)[]
            {
                (["--licence", "free"], "no licence on this list"),
                (["--orcid", "0000-0002-1825-0097"], "names its author"),
                (["--by", "A", "--orcid", "0000-0002-1825-0096"], "last figure"),
            }
        )
        {
            var outcome = await kitchen.RunAsync([
                "dossier",
                "Brood 2",
                "--to",
                kitchen.At("d.zip"),
                .. slip,
            ]);
            Assert.Equal(2, outcome.Code);
            Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        }

        Assert.Equal(2, (await kitchen.RunAsync("dossier", "Brood 2")).Code);
        Assert.False(File.Exists(kitchen.At("d.zip")));
    }

    [GeneratedRegex("""(?:src="|url\()([^")]*)""")]
    private static partial Regex Fetched();
}
