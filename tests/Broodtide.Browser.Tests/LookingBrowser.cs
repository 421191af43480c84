namespace Broodtide.Browser.Tests;

/// <summary>Tests that mostly look: they share one browser and the invented house, and run after each other.</summary>
[CollectionDefinition(Name)]
public sealed class LookingBrowser : ICollectionFixture<Browsing>
{
    public const string Name = "a browser to look with";
}
