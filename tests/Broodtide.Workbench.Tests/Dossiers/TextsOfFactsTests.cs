using System.Collections;
using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Dossiers;

namespace Broodtide.Workbench.Tests.Dossiers;

/// <summary>No text of the journal is given away before somebody has thought of what it may tell.</summary>
public class TextsOfFactsTests
{
    [Fact]
    public void Every_text_of_every_fact_is_sorted_and_nothing_else() =>
        Assert.Equal(
            Kinds.All.SelectMany(kind => Texts(kind.Type, kind.Name + ".")).Order(StringComparer.Ordinal),
            TextsOfFacts.All.Order(StringComparer.Ordinal)
        );

    private static IEnumerable<string> Texts(Type type, string before)
    {
        foreach (var member in type.GetProperties().Where(member => member.CanWrite))
        {
            var name = before + JsonNamingPolicy.CamelCase.ConvertName(member.Name);
            var inner = member.PropertyType;
            if (inner == typeof(string))
            {
                yield return name;
                continue;
            }

            if (inner.IsGenericType && inner.IsAssignableTo(typeof(IEnumerable)))
            {
                inner = inner.GetGenericArguments()[0];
            }

            // A typed number holds what was read as a number, and a unit of the list.
            if (
                inner.IsClass
                && inner != typeof(TypedNumber)
                && inner != typeof(string)
                && inner.Namespace!.StartsWith("Broodtide.Domain", StringComparison.Ordinal)
            )
            {
                foreach (var text in Texts(inner, name + "."))
                {
                    yield return text;
                }
            }
        }
    }
}
