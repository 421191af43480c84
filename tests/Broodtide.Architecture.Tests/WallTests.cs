using ArchUnitNET.Fluent;
using ArchUnitNET.Fluent.Slices;
using ArchUnitNET.Loader;
using ArchUnitNET.xUnitV3;
using static ArchUnitNET.Fluent.ArchRuleDefinition;

namespace Broodtide.Architecture.Tests;

/// <summary>The walls of the house. Each rule has a twin that runs it where it must fail.</summary>
public sealed class WallTests
{
    private static readonly ArchUnitNET.Domain.Architecture House = new ArchLoader()
        .LoadAssemblies(
            typeof(Units.Salinity).Assembly,
            typeof(Science.Water.SeawaterDensity).Assembly,
            typeof(Domain.House).Assembly,
            typeof(Workbench.IJournal).Assembly,
            typeof(Storage.Sqlite.SqliteJournal).Assembly
        )
        .Build();

    private static IArchRule Keeps(string inside, string away) =>
        Types()
            .That()
            .ResideInNamespaceMatching($@"^Broodtide\.{inside}(\.|$)")
            .Should()
            .NotDependOnAnyTypesThat()
            .ResideInNamespaceMatching($@"^Broodtide\.{away}(\.|$)");

    [Theory]
    [InlineData("Units", "(Science|Domain|Workbench|Storage)")]
    [InlineData("Science", "(Domain|Workbench|Storage)")]
    [InlineData("Domain", "(Science|Workbench|Storage)")]
    [InlineData("Workbench", "Storage")]
    public void An_inner_room_depends_on_no_outer_one(string inner, string outer) =>
        Keeps(inner, outer).Check(House);

    [Fact]
    public void The_rule_of_rooms_goes_red_where_an_arrow_is_allowed() =>
        Assert.False(Keeps("Workbench", "Science").HasNoViolations(House));

    [Fact]
    public void Folders_of_the_science_form_no_circle() =>
        SliceRuleDefinition.Slices().Matching("Broodtide.Science.(*)").Should().BeFreeOfCycles().Check(House);

    [Fact]
    public void The_rule_of_circles_goes_red_where_one_is_by_design() =>
        Assert.False(
            SliceRuleDefinition
                .Slices()
                .Matching("Broodtide.Domain.(*)")
                .Should()
                .BeFreeOfCycles()
                .HasNoViolations(House)
        );

    [Fact]
    public void Only_the_store_sees_the_database()
    {
        foreach (
            var assembly in new[]
            {
                typeof(Units.Salinity),
                typeof(Science.Water.SeawaterDensity),
                typeof(Domain.House),
                typeof(Workbench.IJournal),
            }
        )
        {
            Assert.DoesNotContain(
                assembly.Assembly.GetReferencedAssemblies(),
                reference => IsOfDatabase(reference.Name!)
            );
        }

        var seen = typeof(Storage.Sqlite.SqliteJournal)
            .Assembly.GetReferencedAssemblies()
            .Select(reference => reference.Name)
            .ToList();
        Assert.Contains("Microsoft.Data.Sqlite", seen);
        Assert.Contains("Npgsql", seen);

        static bool IsOfDatabase(string assembly) =>
            assembly.Contains("Sqlite", StringComparison.OrdinalIgnoreCase)
            || assembly.Equals("Npgsql", StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Every_public_class_is_sealed_static_or_abstract()
    {
        var open = House
            .Assemblies.SelectMany(assembly =>
                AppDomain.CurrentDomain.GetAssemblies().Where(a => a.FullName == assembly.FullName)
            )
            .SelectMany(assembly => assembly.GetExportedTypes())
            .Where(type => type.IsClass && !type.IsSealed && !type.IsAbstract)
            .Select(type => type.FullName)
            .ToList();

        Assert.Empty(open);
    }

    [Fact]
    public void The_picture_in_the_documents_names_exactly_the_projects_and_their_references()
    {
        var picture = RepositoryFiles.Arrows(
            File.ReadAllText(Path.Combine(RepositoryFiles.Root, "docs", "architecture.md"))
        );
        var drawn = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (project, references) in RepositoryFiles.References())
        {
            drawn.Add(project);
            Assert.Equal(references, picture.GetValueOrDefault(project)?.ToList() ?? []);
        }

        Assert.All(picture.Keys, name => Assert.Contains(name, drawn));
    }

    [Fact]
    public void A_picture_with_another_arrow_is_noticed() =>
        Assert.NotEqual(
            RepositoryFiles.References()["Domain"],
            RepositoryFiles.Arrows("    Units, Science <- Domain\n")["Domain"].ToList()
        );
}
