using System.Reflection;
using Broodtide.Phone.Pages;
using Microsoft.AspNetCore.Components;

namespace Broodtide.Browser.Tests;

/// <summary>A page of the app, and what shows that it has come up.</summary>
/// <param name="Route">The route as the page declares it.</param>
/// <param name="Path">An address under that route.</param>
/// <param name="Title">Its title.</param>
public sealed record PageUnderTest(string Route, string Path, string Title)
{
    /// <summary>Whether it is about the server, so that it has nothing to show without asking it.</summary>
    public bool IsAboutTheServer { get; init; }

    public override string ToString() => Path;
}

/// <summary>Every page of the app with an address to test it at. A page that is missing here fails a test.</summary>
public static class PageTable
{
    public static readonly PageUnderTest[] Pages =
    [
        new("/", "/", "Due"),
        new("/run", "/run", "Run"),
        new("/run/{Id:guid}", "/run/00000000-0000-7000-8000-00000000ffff", "Run"),
        new("/run/{Id:guid}/review", "/run/00000000-0000-7000-8000-00000000ffff/review", "Review"),
        new("/run/{Id:guid}/dossier", "/run/00000000-0000-7000-8000-00000000ffff/dossier", "Dossier"),
        new("/notes/take", "/notes/take", "Old notes"),
        new("/dossiers", "/dossiers", "Dossiers of others"),
        new("/compare", "/compare", "Compare"),
        new("/vessel/{Id:guid}", "/vessel/00000000-0000-7000-8000-00000000ffff", "Vessel"),
        new("/what-if/{Id:guid}", "/what-if/00000000-0000-7000-8000-00000000ffff", "What if"),
        new("/brood/{Id:guid}", "/brood/00000000-0000-7000-8000-00000000ffff", "Brood"),
        new("/adults", "/adults", "Adults"),
        new("/animal/{Id:guid}", "/animal/00000000-0000-7000-8000-00000000ffff", "Animal"),
        new("/tonight", "/tonight", "Tonight"),
        new("/after-loss/{Id:guid}", "/after-loss/00000000-0000-7000-8000-00000000ffff", "After a loss"),
        new("/sensors", "/sensors", "Sensors") { IsAboutTheServer = true },
        new("/cultures", "/cultures", "Cultures"),
        new("/culture/{Id:guid}", "/culture/00000000-0000-7000-8000-00000000ffff", "Culture"),
        new("/index", "/index", "Everything kept"),
        new("/journal", "/journal", "Journal"),
        new("/journal/{Id}", "/journal/0", "Entry"),
        new("/write", "/write", "Write"),
        new("/write/{Kind}", "/write/set-up", "New vessel"),
        new("/photo", "/photo", "Photo"),
        new("/bench", "/bench", "Bench clock"),
        new("/water", "/water", "Make sea water"),
        new("/water/correct", "/water/correct", "Correct a vessel"),
        new("/water/blend", "/water/blend", "Blend waters"),
        new("/water/reading", "/water/reading", "What a reading means"),
        new("/water/sterilise", "/water/sterilise", "Sterilise"),
        new("/water/standard", "/water/standard", "Refractometer standard"),
        new("/water/food", "/water/food", "Food dose"),
        new("/food", "/food", "Food, worked out"),
        new("/crossing", "/crossing", "Crossing"),
        new("/crossing/bench", "/crossing/bench", "Crossing, at the bench"),
        new("/return/{Id:guid}", "/return/00000000-0000-7000-8000-00000000ffff", "Settlement and return"),
        new("/gather", "/gather", "Gather larvae"),
        new("/count", "/count", "Count"),
        new("/look/count", "/look/count", "Count in photos"),
        new("/look/merge", "/look/merge", "Merge focus planes"),
        new("/look/cells", "/look/cells", "Cells in a chamber"),
        new("/trial", "/trial", "Trial"),
        new("/species/learned", "/species/learned", "What the runs taught"),
        new("/look/length", "/look/length", "Length of a larva"),
        new("/stages", "/stages", "Stage sample"),
        new("/reminders", "/reminders", "Reminders"),
        new("/bad-day", "/bad-day", "Bad day"),
        new("/helper", "/helper", "Helper’s sheet"),
        new("/sheet", "/sheet", "Bench sheet"),
        new("/sheet/write", "/sheet/write", "From a sheet"),
        new("/species", "/species", "Caridina multidentata"),
        new("/settings", "/settings", "This phone"),
        new("/people", "/people", "People of the house") { IsAboutTheServer = true },
        new("/sharing", "/sharing", "At the door") { IsAboutTheServer = true },
        new("/me", "/me", "My sign-ins") { IsAboutTheServer = true },
        new("/sign-in", "/sign-in", "Sign in"),
        new("/join", "/join", "Come in"),
        new("/first", "/first", "First start"),
        new("/figures", "/figures", "How to read it"),
        new("/answers", "/answers", "All answers"),
        new("/not-here", "/not-here", "Not here"),
    ];

    public static TheoryData<PageUnderTest> All => new(Pages);

    /// <summary>Every page in every language of the app.</summary>
    public static TheoryData<PageUnderTest, string> InEveryLanguage
    {
        get
        {
            var all = new TheoryData<PageUnderTest, string>();
            foreach (var page in Pages)
            {
                all.Add(page, "en");
                all.Add(page, "de");
            }

            return all;
        }
    }

    /// <summary>The routes that the router of the app knows.</summary>
    public static IReadOnlyList<string> RoutesOfTheApp() =>
        [
            .. typeof(DuePage)
                .Assembly.GetTypes()
                .Concat(typeof(RunPage).Assembly.GetTypes())
                .SelectMany(page => page.GetCustomAttributes<RouteAttribute>())
                .Select(route => route.Template)
                .Order(StringComparer.Ordinal),
        ];
}
