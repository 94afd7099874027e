package stencil

import (
	"html/template"
	"reflect"
)

// Types that code here asks for.
var (
	stringType = reflect.TypeFor[string]()
	intType    = reflect.TypeFor[int]()
	anyType    = reflect.TypeFor[any]()
	errorType  = reflect.TypeFor[error]()
	valueType  = reflect.TypeFor[reflect.Value]() // which text/template treats in ways of its own
)

// contentTypes is the package whose string types say how a text is written.
var contentTypes = reflect.TypeFor[template.HTML]().PkgPath()
