using System.Text;
using System.Text.RegularExpressions;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.Dossiers;
using static Broodtide.Workbench.Tests.Dossiers.InventedDossiers;

namespace Broodtide.Workbench.Tests.Dossiers;

public partial class DossierTests
{
    private static readonly DossierChoice Whole = new()
    {
        Names = true,
        Notes = true,
        Place = true,
    };

    // Salts are drawn anew each time and may by chance spell a short name; they say nothing.
    [GeneratedRegex("\\\\?\"salt\\\\?\":\\\\?\"[A-Za-z0-9+/=]{24}\\\\?\"", RegexOptions.None, 10_000)]
    private static partial Regex Salt { get; }

    private static string AllText(Dossier dossier) =>
        Salt.Replace(
            string.Concat(
                DossierPackage.Of(dossier, Engine).Select(file => Encoding.UTF8.GetString(file.Bytes.Span))
            ),
            ""
        );

    [Theory]
    [InlineData("Ilka")]
    [InlineData("Alma")]
    [InlineData("Brood 2")]
    [InlineData("Hatching box")]
    [InlineData("Hand refractometer")]
    [InlineData("a club member")]
    [InlineData("Hedwig")]
    [InlineData("Basel")]
    [InlineData("Zurich")]
    public async Task Names_notes_and_places_are_left_out_unless_asked_for(string told)
    {
        Assert.DoesNotContain(told, AllText(await OfAsync()), StringComparison.OrdinalIgnoreCase);
        Assert.Contains(told, AllText(await OfAsync(Whole)), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Its_numbers_are_those_of_the_keepers_own_journal()
    {
        var house = await HouseAsync();
        var run = house.Runs.Single(run => run.Name == "Brood 2");
        var own = Outlook.Of(house.Account, Now, KeptJournal.Zone);
        var mine = own.EstimateOf(own.PopulationOf(run.Brood!.Value)!);
        foreach (var choice in new[] { new DossierChoice(), Whole })
        {
            var dossier = Of(house, choice);
            var its = dossier.Outlook.EstimateOf(dossier.Outlook.PopulationOf(run.Brood!.Value)!);
            Assert.Equal(mine.All.Alive, its.All.Alive);
            Assert.Equal(
                mine.Track.Select(point => (point.At, point.Alive)),
                its.Track.Select(point => (point.At, point.Alive))
            );
            Assert.Equal(mine.Settlement, its.Settlement);
            var ledger = dossier.Outlook.LedgerOf(its.Vessels[0].Id)!;
            Assert.Equal(own.LedgerOf(its.Vessels[0].Id)!.SalinityPpt, ledger.SalinityPpt);
        }
    }

    [Fact]
    public async Task Entries_that_were_sealed_anew_hold_in_one_chain_without_conflict()
    {
        var dossier = await OfAsync();
        Assert.Empty(Account.Of(dossier.Entries).Conflicts());
        Assert.Equal(
            Enumerable.Range(1, dossier.Entries.Count).Select(number => (long)number),
            dossier.Entries.Select(entry => entry.Envelope.Sequence)
        );
        Assert.All(dossier.Entries, entry => Assert.True(Entry.Read(entry.Bytes).Succeeded));
    }

    [Fact]
    public async Task Nothing_leads_from_a_dossier_back_to_the_hashes_of_the_journal()
    {
        var house = await HouseAsync();
        var text = AllText(Of(house, new DossierChoice()));
        foreach (var entry in house.Account.Entries)
        {
            Assert.DoesNotContain(entry.Digest.ToString(), text, StringComparison.Ordinal);
            Assert.DoesNotContain(entry.Envelope.Body.ToString(), text, StringComparison.Ordinal);
            Assert.DoesNotContain(
                Convert.ToBase64String(entry.Bytes.SaltedBody.Span[..15]),
                text,
                StringComparison.Ordinal
            );
        }
    }

    [Fact]
    public async Task Asked_for_whole_the_entries_are_the_bytes_that_the_keeper_sealed()
    {
        var house = await HouseAsync();
        var own = house.Account.Entries.Select(entry => entry.Digest).ToHashSet();
        Assert.All(Of(house, Whole).Entries, entry => Assert.Contains(entry.Digest, own));
    }

    [Fact]
    public async Task The_same_run_and_choice_give_the_same_bytes()
    {
        var house = await HouseAsync();
        var (one, other) = (Of(house, new DossierChoice()), Of(house, new DossierChoice()));
        Assert.Equal(
            DossierPackage.Of(one, Engine).Select(file => (file.Path, file.Sha256)),
            DossierPackage.Of(other, Engine).Select(file => (file.Path, file.Sha256))
        );
        Assert.Equal(
            PackageZip.Write(DossierPackage.Of(one, Engine)),
            PackageZip.Write(DossierPackage.Of(other, Engine))
        );
    }

    [Fact]
    public async Task Other_runs_of_the_house_stay_at_home()
    {
        var dossier = await OfAsync(Whole);
        Assert.Equal(
            ["Brood 2"],
            dossier.Entries.Select(entry => entry.Fact).OfType<RunStarted>().Select(run => run.Name)
        );
        Assert.DoesNotContain("Brood 1", AllText(dossier), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Photos_go_along_under_their_hash_and_can_stay_at_home()
    {
        var with = await OfAsync();
        var photo = Assert.Single(with.Photos);
        Assert.Contains(
            with.Entries,
            entry => entry.Fact is PhotoAdded added && added.Sha256 == photo.Sha256
        );
        Assert.Null(photo.Caption);
        var without = await OfAsync(new DossierChoice { Photos = false });
        Assert.Empty(without.Photos);
        Assert.DoesNotContain(without.Entries, entry => entry.Fact is PhotoAdded);
    }

    [Fact]
    public async Task Invented_entries_say_so_under_any_name()
    {
        var dossier = await OfAsync();
        Assert.True(dossier.IsInvented);
        Assert.Contains("nothing of it happened", AllText(dossier), StringComparison.Ordinal);
        Assert.True(ForeignPackage.Read(DossierPackage.Of(dossier, Engine)).Value.IsInvented);
    }

    [Fact]
    public async Task A_keeper_is_told_that_no_licence_was_chosen_and_that_notes_may_name()
    {
        Assert.Equal(["dossier-no-licence"], (await OfAsync()).Remarks.Select(remark => remark.Code));
        Assert.Equal(
            ["dossier-notes-may-name"],
            (await OfAsync(new DossierChoice { Notes = true, Licence = "CC0-1.0" })).Remarks.Select(remark =>
                remark.Code
            )
        );
    }

    [Fact]
    public async Task The_citation_names_author_number_licence_and_title()
    {
        var dossier = await OfAsync(
            new DossierChoice
            {
                By = "Josiah \"Stinkin\" Carberry",
                Orcid = "0000-0002-1825-0097",
                Licence = "CC-BY-4.0",
            }
        );
        Assert.Equal(
            """
            cff-version: 1.2.0
            message: "If you use these data, please cite them as below."
            type: dataset
            title: "A run of Caridina multidentata, 2026"
            authors:
              - name: "Josiah \"Stinkin\" Carberry"
                orcid: "https://orcid.org/0000-0002-1825-0097"
            date-released: 2026-07-20
            license: CC-BY-4.0
            keywords:
              - "Caridina multidentata"
              - "larval rearing"

            """.ReplaceLineEndings("\n"),
            Encoding.UTF8.GetString(CitationText.Of(dossier))
        );
    }
}
