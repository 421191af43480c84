using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Dossiers;
using Microsoft.Playwright;
using NodaTime;

namespace Broodtide.Browser.Tests;

/// <summary>
/// The invented house, in which somebody wrote a script into every name, note, reason and species and into the name of who
/// wrote it. Every page shows them as the letters they are. The pages' policy would stop most scripts as well; here the
/// first wall is tested: nothing of what was written becomes part of a page.
/// </summary>
[Collection(LookingBrowser.Name)]
public sealed class StoredScriptTests(Browsing browsing)
{
    private const string Mark = "planted-by-a-stranger";

    private const string Script =
        $"\"'><img class={Mark} src=x onerror=\"window.broken=1\"><svg class={Mark} onload=\"window.broken=1\"></svg>"
        + $"<script class={Mark}>window.broken=1</script><a class={Mark} href=\"javascript:window.broken=1\">x</a>";

    // Texts that are free although they tell of nobody.
    private static readonly HashSet<string> FreeToo =
    [
        "animal acquired.species",
        "vessel set up.species",
        "culture described.name",
        "feed described.name",
        "vessel fed.feed",
        "vessel disinfected.agent",
    ];

    private static readonly Instant Now = SystemClock.Instance.GetCurrentInstant();

    [Fact]
    public async Task A_script_in_every_text_of_the_journal_stays_a_text_on_every_page()
    {
        await using var phone = await browsing.NewPhone(workers: ServiceWorkerPolicy.Block);
        var data = Directory.CreateTempSubdirectory("broodtide-test-");
        var (planted, ways) = await PlantAsync(data);
        Assert.InRange(planted, 30, int.MaxValue);
        await using var server = await RunningServer.StartOn(data);
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        var shown = 0;
        foreach (
            var path in PageTable
                .Pages.Where(page => !page.Route.Contains('{'))
                .Select(page => page.Path)
                .Concat(ways)
        )
        {
            await opened.GoTo(path);
            await DemoPhones.Calm(opened);
            Assert.False(
                await opened.Page.EvaluateAsync<bool>("() => window.broken === 1"),
                $"A script ran on {path}."
            );
            Assert.Equal(0, await opened.Page.Locator($".{Mark}").CountAsync());
            shown += (await opened.Page.Locator("body").InnerTextAsync()).Contains(
                Mark,
                StringComparison.Ordinal
            )
                ? 1
                : 0;
        }

        // As letters they were there to be seen, or the walk would say nothing.
        Assert.InRange(shown, 10, int.MaxValue);
        Assert.DoesNotContain(
            opened.Complaints,
            said => said.Contains("Content Security Policy", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task The_same_text_written_as_a_piece_of_a_page_is_found()
    {
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, (await browsing.Server()).Address);
        await opened.Page.EvaluateAsync(
            "text => { document.querySelector('main').insertAdjacentHTML('beforeend', text); }",
            Script
        );
        Assert.NotEqual(0, await opened.Page.Locator($".{Mark}").CountAsync());
    }

    // How many texts were planted, and the pages of the things that bear them.
    private static async Task<(int Planted, List<string> Ways)> PlantAsync(DirectoryInfo data)
    {
        var planted = 0;
        var ways = new SortedSet<string>(StringComparer.Ordinal);
        await using var journal = await SqliteJournal.OpenAsync(
            Path.Combine(data.FullName, "journal.db"),
            "server",
            TestContext.Current.CancellationToken
        );
        var drafts = new List<Draft>();
        foreach (var draft in InventedHouse.Drafts(Now, DateTimeZoneProviders.Tzdb["Europe/Berlin"]))
        {
            var kind = Kinds.Of(draft.Fact);
            var body = JsonNode.Parse(kind.Write(draft.Fact))!;
            planted += Plant(body, kind.Name, "");
            var fact = Kinds.Read(
                kind.Name,
                kind.Version,
                CanonicalJson.From(Encoding.UTF8.GetBytes(body.ToJsonString()))
            );
            Assert.IsNotType<UnreadableFact>(fact);
            drafts.Add(draft with { Author = draft.Author with { Name = Script }, Fact = fact });
            ways.UnionWith(fact.Subjects().SelectMany(Ways));
        }

        var entries = await journal.AppendAsync(drafts, TestContext.Current.CancellationToken);
        return (planted, [.. ways, $"/journal/{entries[^1].Id.Value}"]);
    }

    private static int Plant(JsonNode node, string kind, string members)
    {
        var count = 0;
        if (node is JsonObject thing)
        {
            foreach (var (name, inside) in thing.ToList())
            {
                var path = members.Length == 0 ? name : $"{members}.{name}";
                var isFree =
                    TextsOfFacts.Of(kind, path) != TextSort.Plain
                    || FreeToo.Contains(string.Create(CultureInfo.InvariantCulture, $"{kind}.{path}"));
                if (inside is JsonValue value && value.TryGetValue<string>(out _) && isFree)
                {
                    thing[name] = Script;
                    count++;
                }
                else if (inside is not null)
                {
                    count += Plant(inside, kind, path);
                }
            }
        }
        else if (node is JsonArray list)
        {
            count += list.Sum(inside => inside is null ? 0 : Plant(inside, kind, members));
        }

        return count;
    }

    private static string[] Ways(Subject subject) =>
        subject.Kind switch
        {
            SubjectKind.Animal => [$"/animal/{subject.Id}"],
            SubjectKind.Brood => [$"/brood/{subject.Id}"],
            SubjectKind.Run =>
            [
                $"/run/{subject.Id}",
                $"/run/{subject.Id}/review",
                $"/run/{subject.Id}/dossier",
            ],
            SubjectKind.Vessel => [$"/vessel/{subject.Id}"],
            _ => [],
        };
}
