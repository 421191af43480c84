namespace Broodtide.Browser.Tests;

/// <summary>All tests of the browser share one and run after each other: they measure time.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class OneBrowser : ICollectionFixture<Browsing>
{
    public const string Name = "one browser";
}
