namespace Broodtide.Browser.Tests;

/// <summary>Tests that measure time or load the machine: one browser, and no other test of this suite beside it.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class QuietBrowser : ICollectionFixture<Browsing>
{
    public const string Name = "a browser with the machine to itself";
}
